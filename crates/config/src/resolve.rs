//! Precedence, highest first: a record's own lesson, command line, front matter, last matching rule of the settings file, file name (`lesson-from-name`),
//! folder-wide settings, editor, default.

use std::path::{Path, PathBuf};

use untaught::FrontMatter;

use crate::effective::{EffectiveSettings, Origin};
use crate::folder::FolderSettings;
use crate::layer::{CommandLineSettings, EditorSettings, Layer};

#[cfg(test)]
mod tests;

/// All that settings are resolved from, as far as there is any.
#[derive(Clone, Copy, Debug, Default)]
pub struct Layers<'a> {
    /// The absolute path of the text, which need not exist: rules and paths depend on it.
    pub text: Option<&'a Path>,
    /// Settings that were typed.
    pub command_line: Option<&'a CommandLineSettings>,
    /// The lesson in the record that the text came in. It overrides everything: one typed is for records without.
    pub record_lesson: Option<&'a str>,
    /// The text's front matter.
    pub front_matter: Option<&'a FrontMatter>,
    /// The settings file of the text's folder.
    pub folder: Option<&'a FolderSettings>,
    /// Settings of the editor.
    pub editor: Option<&'a EditorSettings>,
    /// The editor's workspace folders, from which paths in its settings count.
    pub workspace: &'a [PathBuf],
}

/// Resolves the layers: the highest one that sets a value decides; names and story words add up. Reads no file.
#[must_use]
pub fn resolve(layers: &Layers<'_>) -> EffectiveSettings {
    let folder = layers.text.and_then(Path::parent);
    let mut settings = EffectiveSettings::default();
    // Lowest first: each goes on top of those before it.
    if let Some(editor) = layers.editor {
        Layer::editor(editor, workspace_folder(layers)).over(&mut settings);
    }
    if let Some(file) = layers.folder {
        file.over(layers.text, &mut settings);
    }
    if let Some(front) = layers.front_matter {
        Layer::front_matter(front, folder).over(&mut settings);
    }
    if let Some(typed) = layers.command_line {
        Layer::typed(typed).over(&mut settings);
    }
    if let Some(id) = layers.record_lesson {
        Layer::lesson(id, Origin::Record).over(&mut settings);
    }
    settings
}

/// The innermost workspace folder that contains the text, else the first; without any, the text's own folder.
fn workspace_folder<'a>(layers: &Layers<'a>) -> Option<&'a Path> {
    let around = layers.workspace.iter().filter(|folder| layers.text.is_some_and(|text| text.starts_with(folder)));
    let innermost = around.max_by_key(|folder| folder.components().count());
    innermost.or(layers.workspace.first()).map(PathBuf::as_path).or(layers.text.and_then(Path::parent))
}
