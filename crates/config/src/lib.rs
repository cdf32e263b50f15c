//! The settings of a folder of readers, `untaught.yaml`: the scope, the thresholds, and which lesson each text belongs to.
//!
//! The file is found by walking up from a text. Its paths and globs count from its own folder.

mod file;
mod settings;

pub use settings::{Origin, Project, Sourced, TextSettings};

use std::path::{Path, PathBuf};

/// What the file is called.
pub const NAME: &str = "untaught.yaml";

/// The settings file that counts for what lies in a folder: its own, or that of the nearest folder above. Cost: a look into each
/// folder up to the root.
#[must_use]
pub fn find(folder: &Path) -> Option<PathBuf> {
    // The folder of a bare name is here.
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let folder = std::path::absolute(folder).ok()?;
    folder.ancestors().map(|above| above.join(NAME)).find(|path| path.is_file())
}
