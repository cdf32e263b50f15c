//! Settings: which scope and lesson a text is checked against, its names and story words, its focus and its thresholds.
//!
//! They are set in several layers: on the command line, in the text's front matter, in the `untaught.yaml` of its folder, in the
//! editor. [`resolve`] is the only place that decides between them.

mod bounds;
mod effective;
mod file;
mod folder;
mod layer;
mod paths;
mod resolve;

pub use effective::{DEFAULT_SCOPE, EffectiveSettings, Origin, ScopeReference, Sourced};
pub use folder::FolderSettings;
pub use layer::{ALLOW, CommandLineSettings, EditorSettings};
pub use paths::{absolute, clean, escaped};
pub use resolve::{Layers, resolve};

use std::path::{Path, PathBuf};

/// The name of a settings file.
pub const NAME: &str = "untaught.yaml";

/// Finds the settings file of a folder: its own, or that of the nearest folder above. Cost: one look into each folder up to the root.
#[must_use]
pub fn find(folder: &Path) -> Option<PathBuf> {
    // Without the `..`, or `here/../there` would seem to lie in `here`.
    let folder = clean(&absolute(folder));
    folder.ancestors().map(|above| above.join(NAME)).find(|path| path.is_file())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_settings_file_above_counts_and_none_beside() {
        let top = tempfile::tempdir().unwrap();
        for folder in ["here/below", "there"] {
            std::fs::create_dir_all(top.path().join(folder)).unwrap();
        }
        std::fs::write(top.path().join("here").join(NAME), "format: 1\n").unwrap();
        let found = |folder: &str| find(&top.path().join(folder));
        assert_eq!(found("here/below"), Some(top.path().join("here").join(NAME)));
        assert_eq!(found("here"), Some(top.path().join("here").join(NAME)));
        assert_ne!(found("here/../there"), Some(top.path().join("here").join(NAME)), "`there` is not in `here`");
        assert_eq!(found("there"), found("here/../there"));
    }
}
