//! What the names of elements and their attributes mean for the text.

/// What an element does to the text within and around it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum ElementRole {
    /// Stands within a line.
    Inline,
    /// Stands in lines of its own.
    Block,
    /// Is not shown.
    LeftOut,
}

/// What an element of that name does.
pub(super) fn role(name: &str) -> ElementRole {
    match name {
        "script" | "style" | "template" | "noscript" | "title" | "del" | "s" | "strike" | "rt" | "rp" | "rtc" => {
            ElementRole::LeftOut
        }
        // What stands in these is shown only where the thing itself cannot be, or is not text.
        "iframe" | "object" | "audio" | "video" | "canvas" | "svg" | "math" | "noembed" | "noframes" => {
            ElementRole::LeftOut
        }
        "select" | "datalist" | "textarea" => ElementRole::LeftOut,
        "address" | "article" | "aside" | "blockquote" | "body" | "caption" | "center" | "dd" | "details"
        | "dialog" | "dir" | "div" | "dl" | "dt" | "fieldset" | "figcaption" | "figure" | "footer" | "form" | "h1"
        | "h2" | "h3" | "h4" | "h5" | "h6" | "head" | "header" | "hgroup" | "hr" | "html" | "legend" | "li"
        | "listing" | "main" | "menu" | "nav" | "ol" | "optgroup" | "option" | "p" | "plaintext" | "pre" | "search"
        | "section" | "summary" | "table" | "tbody" | "td" | "tfoot" | "th" | "thead" | "tr" | "ul" | "xmp" => {
            ElementRole::Block
        }
        _ => ElementRole::Inline,
    }
}

/// Whether an element never has anything within.
pub(super) fn is_void(name: &str) -> bool {
    matches!(
        name,
        "area"
            | "base"
            | "basefont"
            | "bgsound"
            | "br"
            | "col"
            | "embed"
            | "frame"
            | "hr"
            | "image"
            | "img"
            | "input"
            | "keygen"
            | "link"
            | "meta"
            | "param"
            | "source"
            | "track"
            | "wbr"
    )
}

/// Whether spaces and line ends count as they stand.
pub(super) fn is_preformatted(name: &str) -> bool {
    matches!(name, "pre" | "listing" | "xmp" | "plaintext")
}

/// The elements that end where one of this name begins, and those that keep them from it.
pub(super) fn ends_before(name: &str) -> (&'static [&'static str], &'static [&'static str]) {
    match name {
        "li" => (&["li"], &["ul", "ol", "menu", "dir"]),
        "dt" | "dd" => (&["dt", "dd"], &["dl"]),
        "td" | "th" => (&["td", "th"], &["table"]),
        "tr" => (&["tr"], &["table"]),
        "tbody" | "tfoot" | "thead" => (&["tbody", "tfoot", "thead"], &["table"]),
        "rt" | "rp" | "rb" | "rtc" => (&["rt", "rp"], &["ruby"]),
        "option" | "optgroup" => (&["option"], &["select"]),
        "body" => (&["head"], &[]),
        _ => (&[], &[]),
    }
}

/// Elements in which a paragraph of the page around them does not end.
pub(super) const PARAGRAPH_SCOPES: &[&str] =
    &["td", "th", "caption", "button", "object", "marquee", "applet", "template", "html"];

/// Whether an attribute keeps the element from being shown.
pub(super) fn hides(attribute: &str, value: &str) -> bool {
    match attribute {
        "hidden" => true,
        "aria-hidden" => value.trim().eq_ignore_ascii_case("true"),
        "style" => value.split(';').any(hides_by_style),
        // Notes and the marks that lead to them are left out in every kind of document.
        "role" => value.split_ascii_whitespace().any(|role| {
            matches!(role, "doc-noteref" | "doc-backlink" | "doc-endnotes" | "doc-footnote" | "doc-endnote")
        }),
        "epub:type" => value.split_ascii_whitespace().any(|kind| {
            matches!(
                kind,
                "noteref" | "footnote" | "footnotes" | "endnote" | "endnotes" | "rearnote" | "rearnotes" | "pagebreak"
            )
        }),
        _ => false,
    }
}

fn hides_by_style(declaration: &str) -> bool {
    let Some((name, value)) = declaration.split_once(':') else { return false };
    let value = value.split('!').next().unwrap_or("").trim().to_ascii_lowercase();
    match name.trim().to_ascii_lowercase().as_str() {
        "display" => value == "none",
        "visibility" => matches!(value.as_str(), "hidden" | "collapse"),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attributes_that_hide() {
        assert!(hides("hidden", ""));
        assert!(hides("aria-hidden", " TRUE"));
        assert!(!hides("aria-hidden", "false"));
        assert!(hides("style", "color: red; Display : NONE !important"));
        assert!(hides("style", "visibility:hidden"));
        assert!(!hides("style", "display: block; content: 'display'"));
        assert!(hides("role", "doc-noteref"));
        assert!(!hides("class", "hidden"));
    }
}
