//! Documents and folders made to do harm: nothing unfolds without end, nothing is written, nothing is lost, and every refusal is a
//! sentence.

use std::fs;
use std::io::{Cursor, Write as _};
use std::path::{Path, PathBuf};

use crate::support::{Done, untaught};
use tempfile::TempDir;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        let method = if *name == "mimetype" { CompressionMethod::Stored } else { CompressionMethod::Deflated };
        zip.start_file(*name, SimpleFileOptions::default().compression_method(method)).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

const WORD: &str = "http://schemas.openxmlformats.org/wordprocessingml/2006/main";
const OPEN: &str = "xmlns:o='urn:oasis:names:tc:opendocument:xmlns:office:1.0' xmlns:t='urn:oasis:names:tc:opendocument:xmlns:text:1.0'";

/// A Word document with this before its root and this in its one paragraph.
fn docx(before: &str, text: &str) -> Vec<u8> {
    let xml = format!(
        "<?xml version='1.0'?>{before}<w:document xmlns:w='{WORD}'><w:body><w:p><w:r><w:t>{text}</w:t></w:r></w:p></w:body></w:document>"
    );
    archive(&[("word/document.xml", xml.as_bytes())])
}

fn odt(before: &str, text: &str) -> Vec<u8> {
    let xml = format!(
        "<?xml version='1.0'?>{before}<o:document-content {OPEN}><o:body><o:text><t:p>{text}</t:p></o:text></o:body></o:document-content>"
    );
    archive(&[("mimetype", b"application/vnd.oasis.opendocument.text"), ("content.xml", xml.as_bytes())])
}

fn epub(more: &[(&str, &[u8])], page: &str, text: &str) -> Vec<u8> {
    let container = "<container xmlns='urn:oasis:names:tc:opendocument:xmlns:container'><rootfiles><rootfile \
                     full-path='book.opf' media-type='application/oebps-package+xml'/></rootfiles></container>";
    let package = format!(
        "<package xmlns='http://www.idpf.org/2007/opf'><manifest><item id='a' href='{page}' \
         media-type='application/xhtml+xml'/></manifest><spine><itemref idref='a'/></spine></package>"
    );
    let xhtml = format!("<html xmlns='http://www.w3.org/1999/xhtml'><body><p>{text}</p></body></html>");
    let mut files: Vec<(&str, &[u8])> = vec![
        ("mimetype", b"application/epub+zip"),
        ("META-INF/container.xml", container.as_bytes()),
        ("book.opf", package.as_bytes()),
        (page, xhtml.as_bytes()),
    ];
    files.extend(more);
    archive(&files)
}

fn folder(files: &[(&str, Vec<u8>)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("in")).unwrap();
    for (name, bytes) in files {
        fs::write(folder.path().join("in").join(name), bytes).unwrap();
    }
    folder
}

/// Everything that lies in a folder.
fn all(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<PathBuf> = entries
        .flat_map(|path| {
            if path.is_dir() && !path.is_symlink() { [vec![path.clone()], all(&path)].concat() } else { vec![path] }
        })
        .collect();
    found.sort();
    found
}

fn check(folder: &TempDir, args: &[&str]) -> Done {
    untaught(["check", "-l", "9", "-f", "json"].iter().chain(args)).within(&folder.path().join("in")).done()
}

/// The message about each file that could not be checked.
fn errors(done: &Done) -> Vec<(String, String)> {
    let json = done.json();
    let errors = json["errors"].as_array().unwrap().iter();
    errors.map(|e| (e["file"].as_str().unwrap().to_owned(), e["message"].as_str().unwrap().to_owned())).collect()
}

#[test]
fn archives_that_unfold_without_end_are_refused_and_the_others_are_read() {
    let blank = " ".repeat(70 << 20);
    let page = "<p>Tam</p>".repeat(1 << 20);
    let folder = folder(&[
        ("bomb.docx", docx("", &blank)),
        ("bomb.epub", epub(&[], "a.xhtml", &page)),
        ("bomb.odt", odt("", &blank)),
        ("good.docx", docx("", "Tam sat.")),
        ("good.epub", epub(&[], "a.xhtml", "Tam sat.")),
        ("good.odt", odt("", "Tam sat.")),
    ]);
    assert!(fs::metadata(folder.path().join("in/bomb.docx")).unwrap().len() < 100_000);
    let done = check(&folder, &["."]);
    assert_eq!((done.code, done.json()["texts"].as_array().unwrap().len()), (Some(2), 3), "{done:?}");
    for ((file, message), name) in errors(&done).iter().zip(["./bomb.docx", "./bomb.epub", "./bomb.odt"]) {
        assert_eq!(file, name);
        let said = message.strip_prefix(&format!("{name} was not read: it unpacks to more than ")).unwrap_or_default();
        let (most, rest) = said.split_once(" MB; ").unwrap_or_default();
        assert!(most.parse::<u32>().is_ok_and(|most| most < 64), "{message}");
        assert_eq!(rest, "save only the story, as plain text, and try again");
        assert!(done.err().contains(message), "{done:?}");
    }
    assert_eq!(errors(&done).len(), 3);
}

#[test]
fn entities_are_not_unfolded_and_nothing_is_fetched() {
    let mut bomb = "<!DOCTYPE w [<!ENTITY e0 'ha'>".to_owned();
    for n in 1..30 {
        bomb += &format!("<!ENTITY e{n} '&e{0};&e{0};&e{0};&e{0};'>", n - 1);
    }
    bomb += "]>";
    let folder = folder(&[("secret.txt", b"Zorbish secret".to_vec())]);
    let secret = folder.path().join("in/secret.txt");
    let outside = format!("<!DOCTYPE w [<!ENTITY e29 SYSTEM 'file://{}'>]>", secret.display());
    for (name, bytes) in [
        ("bomb.docx", docx(&bomb, "&e29;")),
        ("bomb.odt", odt(&bomb, "&e29;")),
        ("outside.docx", docx(&outside, "&e29;")),
        ("outside.odt", odt(&outside, "&e29;")),
    ] {
        fs::write(folder.path().join("in").join(name), bytes).unwrap();
        let done = check(&folder, &[name]);
        assert_eq!(done.code, Some(2), "{name}: {done:?}");
        assert!(done.err().contains(&format!("{name} is damaged (it defines its own entities")), "{name}: {done:?}");
        assert!(!done.out().to_lowercase().contains("zorbish"), "{name}");
    }
    // A page of an e-book is HTML: an entity that it does not know is text.
    fs::write(folder.path().join("in/book.epub"), epub(&[], "a.xhtml", "Tam &e29; sat.")).unwrap();
    let done = check(&folder, &["book.epub"]);
    assert!(matches!(done.code, Some(0 | 1)) && !done.out().to_lowercase().contains("zorbish"), "{done:?}");
}

#[test]
fn names_that_climb_out_write_nothing() {
    let evil: &[(&str, &[u8])] = &[("../../evil.txt", b"evil"), ("/evil.txt", b"evil"), ("..\\..\\evil.txt", b"evil")];
    let mut word: Vec<(&str, &[u8])> = evil.to_vec();
    let xml =
        format!("<w:document xmlns:w='{WORD}'><w:body><w:p><w:r><w:t>Tam sat.</w:t></w:r></w:p></w:body></w:document>");
    let relations = "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'><Relationship Target='../../evil.xml' \
                     Type='http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument'/></Relationships>";
    word.push(("word/document.xml", xml.as_bytes()));
    let mut led = word.clone();
    led.push(("_rels/.rels", relations.as_bytes()));
    let folder = folder(&[
        ("climbs.docx", archive(&word)),
        ("climbs.epub", epub(evil, "../../evil.xhtml", "Tam sat.")),
        ("led.docx", archive(&led)),
    ]);
    // What lies outside must not be taken for a part.
    fs::write(folder.path().join("evil.xml"), &xml).unwrap();
    let before = all(folder.path());
    for name in ["climbs.docx", "climbs.epub", "led.docx"] {
        for format in ["json", "text", "html"] {
            let done = untaught(["check", "-l", "9", "-f", format, name]).within(&folder.path().join("in")).done();
            match done.code {
                Some(0) => {}
                Some(2) => assert!(done.err().starts_with(&format!("untaught: {name} is damaged (")), "{done:?}"),
                _ => panic!("{done:?}"),
            }
        }
    }
    assert_eq!(all(folder.path()), before);
    assert!(!Path::new("/evil.txt").exists());
}

#[cfg(unix)]
#[test]
fn links_that_lead_in_circles_or_nowhere_stop_nothing() {
    use std::os::unix::fs::symlink;

    let folder = folder(&[("a.txt", b"Tam sat.".to_vec())]);
    let within = folder.path().join("in");
    fs::create_dir(within.join("deep")).unwrap();
    symlink("..", within.join("deep/again")).unwrap();
    symlink(".", within.join("here")).unwrap();
    symlink("b.txt", within.join("b.txt")).unwrap();
    symlink("gone.txt", within.join("c.txt")).unwrap();
    symlink("a.txt", within.join("d.txt")).unwrap();
    let done = check(&folder, &["."]);
    let names: Vec<String> =
        done.json()["texts"].as_array().unwrap().iter().map(|text| text["file"].as_str().unwrap().to_owned()).collect();
    assert_eq!(names, ["./a.txt", "./d.txt"], "{done:?}");
    // A link that leads nowhere is told of, in a folder as by its name: it stands for a story that is not there.
    assert_eq!(done.code, Some(2), "{done:?}");
    let told: Vec<String> = errors(&done).into_iter().map(|(file, _)| file).collect();
    assert_eq!(told, ["./b.txt", "./c.txt"], "{done:?}");
    let named = check(&folder, &["b.txt", "c.txt", "a.txt"]);
    assert_eq!(named.code, Some(2));
    let told = errors(&named);
    assert_eq!(told.iter().map(|(file, _)| file.as_str()).collect::<Vec<_>>(), ["b.txt", "c.txt"], "{named:?}");
    assert_eq!(told[1].1, "there is no file c.txt");
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_read_is_told() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = folder(&[("a.txt", b"Tam sat.".to_vec())]);
    let locked = folder.path().join("in/locked");
    fs::create_dir(&locked).unwrap();
    fs::write(locked.join("b.txt"), "Tam sat.").unwrap();
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o000)).unwrap();
    let skip = fs::read_dir(&locked).is_ok();
    let done = check(&folder, &["."]);
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o700)).unwrap();
    if skip {
        eprintln!("skipped: this user may read everything");
        return;
    }
    assert_eq!((done.code, errors(&done).len()), (Some(2), 1), "{done:?}");
    assert!(done.err().contains("locked") && done.err().to_lowercase().contains("permission denied"), "{done:?}");
}

/// What cannot be a story, whatever its name, does not make the run wait.
#[cfg(unix)]
#[test]
fn a_pipe_among_the_stories_is_passed_over() {
    let folder = folder(&[("a.txt", b"Tam sat.".to_vec())]);
    let made = std::process::Command::new("mkfifo").arg(folder.path().join("in/b.txt")).status();
    if !made.is_ok_and(|status| status.success()) {
        eprintln!("skipped: no pipe with a name can be made");
        return;
    }
    let done = check(&folder, &["."]);
    assert_eq!((done.code, done.json()["texts"].as_array().unwrap().len()), (Some(0), 1), "{done:?}");
}
