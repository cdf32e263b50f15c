//! The page itself: a document, its styles and its script, put together from the files in `web`.

use crate::Desk;

/// The script: the modules joined into one.
pub const SCRIPT: &str = include_str!(concat!(env!("OUT_DIR"), "/page.js"));

/// The same, packed as `gzip`.
pub const SCRIPT_GZIP: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/page.js.gz"));

const DOCUMENT: &str = include_str!("../web/page.html");

/// The styles.
pub const STYLE: &str = include_str!(concat!(env!("OUT_DIR"), "/page.css"));

/// The same, packed as `gzip`.
pub const STYLE_GZIP: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/page.css.gz"));

/// The lines of the document that stand for its styles, its script, and what it may load.
const STYLE_LINE: &str = "<link rel=\"stylesheet\" href=\"page.css\">";
const SCRIPT_LINE: &str = "<script type=\"module\" src=\"page.js\"></script>";
const POLICY_LINE: &str = "<meta name=\"untaught-policy\">";

/// What the page asks first. The single file has the answers with it, so that it shows its lessons before the library is there.
const FIRST_QUESTIONS: [&str; 2] = [r#"{"ask":"scopes"}"#, r#"{"ask":"scope","scope":{"name":"starter"}}"#];

/// The first questions with their answers, as a JSON object that may stand in a document.
fn first_answers() -> String {
    let mut desk = Desk::default();
    let answers =
        FIRST_QUESTIONS.map(|question| format!("\"{}\":{}", question.replace('"', "\\\""), desk.answer(question)));
    // In JSON, the letter can only be inside of a text.
    format!("{{{}}}", answers.join(",")).replace('<', "\\u003c")
}

/// The document as a server on the same machine gives it out: styles, script and answers come from there.
#[must_use]
pub fn served() -> String {
    DOCUMENT.replace(POLICY_LINE, "<meta name=\"untaught-engine\" content=\"served\">")
}

/// The page as one file that loads nothing: `engine` is the compiled library, packed and written in base 64, `script_hash` what the
/// content policy calls the script.
#[must_use]
pub fn single_file(engine: &str, script_hash: &str) -> String {
    let policy = format!(
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; \
         script-src '{script_hash}' 'wasm-unsafe-eval'; worker-src blob:; img-src data:; font-src data:; base-uri 'none'; form-action 'none'\">"
    );
    let engine = format!(
        "<script type=\"application/json\" id=\"first-answers\">{}</script>\n\
         <script type=\"application/octet-stream\" id=\"engine\">{engine}</script>",
        first_answers()
    );
    DOCUMENT
        .replace(POLICY_LINE, &policy)
        .replace(STYLE_LINE, &format!("<style>\n{STYLE}</style>"))
        .replace(SCRIPT_LINE, &format!("{engine}\n<script type=\"module\">{SCRIPT}</script>"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_module_is_joined_and_none_imports_at_run_time() {
        let script = SCRIPT;
        assert!(!script.lines().any(|line| line.starts_with("import ") || line.starts_with("export ")));
        let names = |line: &str| {
            let line = line.strip_prefix("async ").unwrap_or(line);
            let rest = ["function ", "const ", "let ", "class "].iter().find_map(|word| line.strip_prefix(word))?;
            let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_' && c != '$')?;
            Some(rest[..end].to_owned()).filter(|name| !name.is_empty())
        };
        let mut all: Vec<String> = script.lines().filter_map(names).collect();
        all.sort();
        let twice: Vec<&[String]> = all.windows(2).filter(|pair| pair[0] == pair[1]).collect();
        assert!(twice.is_empty(), "modules share one scope, but these names are defined twice: {twice:?}");
        assert!(all.len() > 20);
    }

    #[test]
    fn the_first_answers_are_those_of_the_library() {
        let all = first_answers();
        assert!(!all.contains('<'));
        let all: serde_json::Value = serde_json::from_str(&all).expect("an object");
        let answer = &all[FIRST_QUESTIONS[1]];
        assert!(answer["lessons"].as_array().is_some_and(|lessons| lessons.len() > 20), "{answer}");
        for question in FIRST_QUESTIONS {
            let own: serde_json::Value = serde_json::from_str(&Desk::default().answer(question)).expect("an answer");
            assert_eq!(all[question], own, "{question}");
        }
        // The page looks them up as it writes them.
        assert!(SCRIPT.contains(r#"desk.ask({ ask: "scopes" })"#));
        assert!(SCRIPT.contains(r#"desk.ask({ ask: "scope", scope: theScope(source) })"#));
        assert!(SCRIPT.contains(r#"chooseScope({ name: "starter" })"#));
    }

    #[test]
    fn the_document_has_the_places_that_are_filled() {
        for line in [STYLE_LINE, SCRIPT_LINE, POLICY_LINE] {
            assert_eq!(DOCUMENT.matches(line).count(), 1, "{line}");
        }
        let page = single_file("AAAA", "sha256-x");
        for left in [" src=", "<link", "untaught-policy", "http:", "https:"] {
            let page = page.replace("http://www.w3.org/", "").replace("<link rel=\"icon\" href=\"data:,\">", "");
            assert!(!page.contains(left), "{left}");
        }
        assert!(!SCRIPT.contains("</script"));
    }
}
