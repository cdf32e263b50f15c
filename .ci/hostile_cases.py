"""Files that nobody means to give, and what the command must say of each. They are made when they are needed."""

import io
import json
import os
import struct
import zipfile
import zlib

MB = 1_000_000
SCOPE = ["scope", "s.yaml"]
CHECK = ["check", "story.txt", "--format", "json"]
JSONL = ["check", "-", "--format", "jsonl"]

# What stands for a named pipe among the files of a case.
PIPE = "a named pipe"

# (name, arguments, files, exit codes that are right, what standard error must say, what standard input is, allowances)
CASES = []


def case(name, args, files, code=2, says="", stdin=None, **allowed):
    """A run in a folder with these files. `allowed` is what it may use beyond what others may: `cpu` in seconds, `memory` in MB."""
    CASES.append((name, args, files, code if isinstance(code, tuple) else (code,), says, stdin, allowed))


def scope(name, text, says="", code=2, args=SCOPE):
    case("scope: " + name, args, {"s.yaml": text}, code, says)


def settings(name, text, says="", code=2):
    case("settings: " + name, CHECK, {"untaught.yaml": text, "story.txt": lambda: "Tam sat."}, code, says)


def front(name, text, says="", code=2):
    case("front matter: " + name, CHECK, {"story.txt": lambda: "---\n" + text() + "\n---\nTam sat.\n"}, code, says)


def story(name, ending, text, says="", code=(0, 1), args=(), **allowed):
    file = "story." + ending
    case(f"{ending}: {name}", ["check", file, "--format", "json", *args], {file: text}, code, says, **allowed)


def stream(name, text, code=1, says=""):
    case("jsonl: " + name, JSONL, {"records": text}, code, says, "records")


def lessons(body):
    return lambda: "format: 1\nlessons:\n" + body()


def letters(n, width=4, alphabet="bcdfghjkmp"):
    return "".join(alphabet[n // len(alphabet) ** place % len(alphabet)] for place in range(width))


def words(n):
    return [letters(k, 5) for k in range(n)]


# --- scope files ------------------------------------------------------------------------------------------------------------------

scope("10,000 unknown spellings in a lesson", lessons(lambda: "- teach: [" + ", ".join(words(10_000)) + "]\n"))
scope("10,000 unknown spellings in 1,000 lessons",
      lessons(lambda: "".join(f"- teach: [{', '.join(words(10_000)[n * 10:n * 10 + 10])}]\n" for n in range(1000))), "and 9,980 more")
scope("10,000 unknown short spellings",
      lessons(lambda: "".join(f"- teach: [{', '.join(letters(n * 10 + k, 4, 'abcdefghij') for k in range(10))}]\n" for n in range(1000))),
      "more")
scope("10,000 key words without the spelling",
      lessons(lambda: "".join(f"- teach: [{', '.join(f'{letters(n * 10 + k)} as in catfish' for k in range(10))}]\n" for n in range(1000))),
      "more")
scope("10,000 key words read by their letters",
      lessons(lambda: "".join(
          f"- teach: [{', '.join(f'a as in {letters(n * 10 + k, 20)}a{letters(n, 15)}' for k in range(10))}]\n" for n in range(1000))),
      "more")
scope("10,000 reviews", lessons(lambda: ("- review: [" + ", ".join(["sh"] * 200) + "]\n") * 50), "more")
scope("100,000 unknown keys", lambda: "format: 1\n" + "".join(f"k{n}: 1\n" for n in range(100_000)))
scope("100,000 unknown keys in a lesson", lessons(lambda: "- a: 1\n" + "".join(f"  k{n}: 1\n" for n in range(100_000))))
for line, what in {
    "teach: [%s]": "spelling", "teach: [a as in %s]": "key word", "teach: [%s as in cat]": "chunk", "teach: [a = /%s/]": "sound",
    "teach: [-%s]": "ending", "sight: [%s]": "sight word", "skills: [%s]": "skill", "id: %s": "id", "title: %s": "title",
    "review: [%s]": "review", "%s: 1": "key",
}.items():
    scope(f"one {what} of 1 MB", lessons(lambda line=line: "- " + line % ("ab" * (MB // 2)) + "\n"))
scope("60,000 lessons with a sight word each", lessons(lambda: "".join(f"- sight: [{w}]\n" for w in words(60_000))))
scope("as many lessons as may be, with a sight word each",
      lessons(lambda: "".join(f"- sight: [{w}]\n" for w in words(5_000))), code=0)
scope("as many lessons as may be, checked", lessons(lambda: "".join(f"- sight: [{w}]\n" for w in words(5_000))), code=0,
      args=["explain", "night", "--scope", "s.yaml"])


def chunks(n):
    """Chunks that are all different, each of them a made-up word as a whole."""
    out = []
    for k in range(n):
        parts = ["bdgmnpst", "aiou", "bdgmnpt", "fkvz", "aiou", "bdgmnpt"]
        word = ""
        for part in parts:
            word += part[k % len(part)]
            k //= len(part)
        out.append(f"{word} as in {word}")
    return out


def chunked(n):
    return lessons(lambda: "".join(f"- teach: [{one}, {two}]\n" for one, two in zip(chunks(n)[::2], chunks(n)[1::2])))


scope("as many chunks as may be", chunked(10_000), code=0)
scope("as many chunks as may be, for a word", chunked(10_000), code=0, args=["explain", "night", "--scope", "s.yaml"])
case("scope: as many chunks as may be, for a story", ["check", "story.txt", "--scope", "s.yaml"],
     {"s.yaml": chunked(10_000), "story.txt": lambda: " ".join(words(MB // 6))}, 1)
scope("aliases of a long list",
      lessons(lambda: "- teach: &a [" + ", ".join(words(10_000)) + "]\n" + "- teach: *a\n" * 10_000))
scope("aliases that multiply", lessons(lambda: "- teach: &a [s]\n" + "".join(
    f"- teach: &{chr(n)} [{', '.join(['*' + chr(n - 1)] * 9)}]\n" for n in range(ord("b"), ord("z") + 1))))
scope("aliases of a long text", lambda: "title: &a " + "x" * 500_000 + "\nformat: 1\nlessons:\n" + "- title: *a\n" * 5_000)
scope("an alias of itself", lambda: "format: 1\nlessons: &a\n- *a\n")
scope("100,000 anchors", lessons(lambda: "- sight: [" + ", ".join(f"&a{n} x" for n in range(100_000)) + "]\n"))
scope("100,000 tags", lessons(lambda: "- sight: [" + ", ".join(f"!t{n} x" for n in range(100_000)) + "]\n"))
scope("100,000 directives", lambda: "".join(f"%TAG !t{n}! tag:x,2000:\n" for n in range(30_000)) + "---\nformat: 1\nlessons: [{}]\n", says="too many lines begin with")
scope("5 MB of comments", lambda: "format: 1\nlessons: [{}]\n" + "# nothing\n" * 500_000)
scope("4 MB of comments", lambda: "format: 1\nlessons: [{}]\n" + "# nothing\n" * 390_000, code=0)
scope("4 MB of one long title", lambda: "format: 1\nlessons: [{}]\ntitle: " + "word " * 780_000)
scope("4 MB of a folded text", lambda: "format: 1\nlessons: [{}]\nabout: >\n" + " word\n\n" * 550_000, code=0)
scope("4 MB of a quoted text", lambda: "format: 1\nlessons: [{}]\nabout: \"" + "\\u0041" * 650_000 + "\"", code=0)
scope("4 MB of empty entries", lessons(lambda: "- teach: [" + "~," * 1_900_000 + "]\n"))
scope("4 MB of short entries", lessons(lambda: "- sight:\n" + "  - a\n" * 650_000))
scope("4 MB of empty lessons", lessons(lambda: "- {}\n" * 790_000))
scope("4 MB of dashes", lessons(lambda: "- " * 1_900_000))
scope("4 MB of brackets", lambda: "[" * 3_900_000)
scope("1 MB of braces", lambda: "{" * MB)
scope("1 MB of braces with keys", lambda: "{a: " * (MB // 4))
scope("1 MB of question marks", lambda: "? " * (MB // 2))
scope("1 MB of colons", lambda: ": " * (MB // 2))
scope("1 MB of keys without values", lambda: "".join(f"{letters(n, 6)}:\n" for n in range(MB // 8)))
scope("1 MB of keys on keys", lambda: "a:\n" + "".join(" " * n + "a:\n" for n in range(1, 1400)))
scope("1 MB of documents", lambda: "---\n" * (MB // 4))
scope("1 MB of tabs", lambda: "format: 1\n" + "\t" * MB)
scope("1 MB of blanks", lambda: "format: 1\nlessons:" + " " * MB + "[{}]\n", code=0)
scope("1 MB of line ends", lambda: "format: 1\nlessons:" + "\n" * MB + " [{}]\n", code=0)
scope("1 MB of exclamation marks", lambda: "!" * MB)
scope("1 MB of ampersands", lambda: "&a " * (MB // 3))
scope("1 MB of percent signs", lambda: "%" * MB)
scope("1 MB of bars", lambda: "|\n" * (MB // 2))
scope("an open quotation of 1 MB", lambda: "format: 1\ntitle: \"" + "a\n" * (MB // 2))
scope("1 MB of quotation marks", lambda: "''" * (MB // 2))
scope("1 MB of a combining mark", lessons(lambda: "- teach: [" + "a" + "\u0301" * (MB // 2) + "]\n"))
scope("1 MB of zero bytes", lambda: "format: 1\n" + "\0" * MB)
case("scope: a device", ["scope", "/dev/zero"], {}, 2, "is a pipe or a device; save it as a file")
case("scope: a named pipe", ["scope", "pipe"], {"pipe": PIPE})
case("scope: standard input without end", ["scope", "-"], {}, 2, "", "/dev/zero")
case("scope: named by front matter, a device", CHECK, {"story.txt": lambda: "---\nscope: /dev/zero\n---\nTam sat.\n"})
case("scope: named by front matter, a named pipe", CHECK, {"story.txt": lambda: "---\nscope: pipe\n---\nTam sat.\n", "pipe": PIPE})
case("scope: named by settings, a device", CHECK, {"untaught.yaml": lambda: "format: 1\nscope: /dev/zero\n", "story.txt": lambda: "Tam"})

# --- settings ---------------------------------------------------------------------------------------------------------------------

settings("100,000 unknown keys", lambda: "format: 1\n" + "".join(f"k{n}: 1\n" for n in range(100_000)))
settings("one key of 1 MB", lambda: "format: 1\n" + "k" * MB + ": 1\n")
settings("50,000 rules", lambda: "format: 1\ntexts:\n" + "".join(f"- {{files: a{n}}}\n" for n in range(50_000)))
settings("as many rules as may be", lambda: "format: 1\ntexts:\n" + "".join(f"- {{files: '*{n}/**/?a{{b,c}}*'}}\n" for n in range(1_000)), code=0)
settings("100,000 globs", lambda: "format: 1\nexclude:\n" + "".join(f"- '*{n}*'\n" for n in range(100_000)))
settings("a glob of 1 MB", lambda: "format: 1\nexclude: '" + "*a" * (MB // 2) + "'\n")
settings("a glob of many stars", lambda: "format: 1\nexclude: '" + "*a" * 100 + "b'\n", code=0)
settings("a glob of alternatives", lambda: "format: 1\nexclude: '" + "{a,b,c}" * 100_000 + "'\n")
settings("a glob of nested alternatives", lambda: "format: 1\nexclude: '" + "{a," * 300_000 + "}" * 300_000 + "'\n")
settings("a glob of classes", lambda: "format: 1\nexclude: '" + "[!a-z]" * 150_000 + "'\n")
settings("a regular expression of 1 MB", lambda: "format: 1\nlesson-from-name: '(" + "a" * MB + ")'\n")
settings("a regular expression that repeats", lambda: "format: 1\nlesson-from-name: '((?:a{1000}){1000})'\n")
settings("a regular expression of letters", lambda: "format: 1\nlesson-from-name: '(\\pL{300})'\n")
settings("a regular expression of wild cards", lambda: "format: 1\nlesson-from-name: '(" + ".*" * 200 + "x)'\n", code=0)
settings("a deep regular expression", lambda: "format: 1\nlesson-from-name: '" + "(?:" * 300_000 + "'\n")
settings("50,000 names", lambda: "format: 1\nnames: [" + ", ".join(words(50_000)) + "]\n")
settings("a name of 1 MB", lambda: "format: 1\nnames: [" + "ab" * (MB // 2) + "]\n")
settings("a focus of 1 MB", lambda: "format: 1\nfocus: [" + "ab" * (MB // 2) + "]\n")
settings("50,000 focus patterns", lambda: "format: 1\nfocus: [" + ", ".join(["sh"] * 50_000) + "]\n")
settings("a scope of 1 MB", lambda: "format: 1\nscope: " + "ab" * (MB // 2) + "\n")
settings("a lesson of 1 MB", lambda: "format: 1\nlesson: " + "ab" * (MB // 2) + "\n")
settings("5 MB", lambda: "format: 1\n" + "# nothing\n" * 500_000)
case("settings: a named pipe", ["check", "story.txt", "--config", "pipe"], {"pipe": PIPE, "story.txt": lambda: "Tam"})
case("settings: a device", ["check", "story.txt", "--config", "/dev/zero"], {"story.txt": lambda: "Tam"})

# --- front matter -----------------------------------------------------------------------------------------------------------------

front("100,000 unknown keys", lambda: "\n".join(f"{letters(n, 5)}: 1" for n in range(100_000)))
front("50,000 names", lambda: "names: [" + ", ".join(words(50_000)) + "]")
front("as many names as may be", lambda: "names: [" + ", ".join(words(5_000)) + "]", code=0)
front("a name of 1 MB", lambda: "names: [" + "ab" * (MB // 2) + "]")
front("a name of many words", lambda: "names: [" + "Tam " * (MB // 4) + "]")
front("a lesson of 1 MB", lambda: "lesson: " + "ab" * (MB // 2))
front("a scope of 1 MB", lambda: "scope: " + "ab" * (MB // 2))
front("a title of 1 MB", lambda: "title: " + "ab" * (MB // 2))
front("50,000 focus patterns", lambda: "focus: [" + ", ".join(["sh"] * 50_000) + "]")
front("5 MB", lambda: "title: x\n" + "# nothing\n" * 500_000)
case("front matter: it does not end", CHECK, {"story.txt": lambda: "---\n" + "a: b\n" * 5_000_000}, (0, 1))

# --- stories ----------------------------------------------------------------------------------------------------------------------

story("one word of 1 MB", "txt", lambda: "ab" * (MB // 2))
story("one word of vowels", "txt", lambda: "aeiou" * (MB // 5))
story("one word of apostrophes", "txt", lambda: "a'" * (MB // 2))
story("one word of combining marks", "txt", lambda: "a" + "\u0301" * (MB // 2))
story("different words", "txt", lambda: " ".join(letters(n, 6) for n in range(MB // 7)))
story("different long words", "txt", lambda: " ".join(letters(n, 4) + "aeiou" * 10 + "sh" * 20 for n in range(MB // 95)))
# Whether a word is made of others is looked into for each different one.
story("different derived words", "txt", lambda: " ".join("un" + letters(n, 6, "abcdefinst") + "ingly's" for n in range(MB // 16)), cpu=12)
story("different compounds", "txt", lambda: " ".join(letters(n, 3, ["cat", "dog", "sun", "hat", "in", "on", "at", "bed", "pig", "top"]) for n in range(MB // 10)))
story("long compounds", "txt", lambda: " ".join(letters(n, 12, ["cat", "dog", "sun", "hat", "in", "on", "at", "bed", "pig", "top"]) for n in range(MB // 33)))
story("hyphens", "txt", lambda: "a-" * (MB // 2))
story("capitals", "txt", lambda: " ".join("X" + w for w in words(80_000)), args=["--names", "allow"])
story("every word reported", "txt", lambda: "night " * (MB // 6), args=["--every-word"])
story("suggestions", "txt", lambda: " ".join(words(80_000)), args=["--suggest", "--lesson", "3"])
case("txt: a story of many lines, shown as a page", ["check", "story.txt", "--format", "html"], {"story.txt": lambda: "night\n" * (MB // 6)}, (0, 1))
case("txt: placed", ["place", "story.txt", "--format", "json"], {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
case("txt: a shelf", ["shelf", "story.txt", "--format", "json"], {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
for report in ["text", "csv", "csv-words", "sarif", "junit", "github", "jsonl"]:
    case(f"txt: a word many times, as {report}", ["check", "story.txt", "--format", report, "--lesson", "3"],
         {"story.txt": lambda: "night " * (MB // 6)}, (0, 1))
    case(f"txt: many words, as {report}", ["check", "story.txt", "--format", report, "--lesson", "3"],
         {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
case("txt: many words, as html", ["check", "story.txt", "--format", "html", "--lesson", "3"], {"story.txt": lambda: " ".join(words(MB // 6))}, 1, memory=400)
for kind in ["markdown", "html", "json"]:
    case(f"txt: a pack, as {kind}", ["pack", "story.txt", "--format", kind, "--lesson", "9"], {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
for kind in ["text", "html", "csv"]:
    case(f"txt: placed, as {kind}", ["place", "story.txt", "--format", kind], {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
    case(f"txt: a shelf, as {kind}", ["shelf", "story.txt", "--format", kind], {"story.txt": lambda: " ".join(words(MB // 6))}, (0, 1))
case("folder: an ignore file of 1 MB", ["check", "."], {".untaughtignore": lambda: "".join(f"a*{n}?[b-c]\n" for n in range(MB // 12)), "a.txt": lambda: "Tam"}, 2,
     "/.untaughtignore is larger than 128 KB")
case("folder: an ignore pattern of 1 MB", ["check", "."], {".gitignore": lambda: "*a" * (MB // 2), "a.txt": lambda: "Tam"}, 2,
     "/.gitignore is larger than 128 KB")
case("folder: 10,000 broken files", ["check", "."], {f"{n}.docx": (lambda: "PK") for n in range(10_000)}, 2)
case("explain: 20,000 words", ["explain", *[letters(n, 4) for n in range(20_000)]], {}, 0)
case("txt: a zero-filled device", ["check", "/dev/zero"], {})
case("txt: standard input without end", ["check", "-"], {}, 2, "", "/dev/zero")
case("names: a line of 100 KB", ["check", "story.txt", "--names", "ab" * 50_000], {"story.txt": lambda: "Tam"}, 0)
case("names: 30,000", ["check", "story.txt", "--names", ",".join(letters(n, 4) for n in range(10_000))], {"story.txt": lambda: "Tam"}, 0)
case("lesson: 100 KB", ["check", "story.txt", "--lesson", "ab" * 50_000], {"story.txt": lambda: "Tam"})
case("focus: 100 KB", ["check", "story.txt", "--focus", "ab" * 50_000], {"story.txt": lambda: "Tam"})
case("explain: 100 KB", ["explain", "ab" * 50_000], {}, 0)
case("explain: 100 KB of compounds", ["explain", "catdog" * 16_000], {}, 0)
case("words: a focus of 100 KB", ["words", "--focus", "ab" * 50_000], {})
case("words: a shape of 100 KB", ["words", "--shape", "CV" * 50_000], {}, 1)
case("chain: a word of 100 KB", ["chain", "--from", "ab" * 50_000], {}, 2)
case("boxes: a word of 100 KB", ["boxes", "ab" * 50_000], {}, 2)
case("contrast: a sound of 100 KB", ["contrast", "ab" * 50_000], {}, 2)
case("patterns: a spelling of 100 KB", ["patterns", "ab" * 50_000], {}, 2)
stream("a line of 100 MB", lambda: '{"text": "' + "a" * 100 * MB + '"}\n')
stream("a line of 1 MB without end", lambda: '{"text": "' + "a" * MB)
stream("a deep record", lambda: '{"id": ' + "[" * MB + "\n")
stream("a deep record that ends", lambda: '{"id": ' + "[" * 100_000 + "]" * 100_000 + ', "text": "Tam"}\n', code=0)
stream("100,000 faulty records", lambda: "{}\n" * 100_000, says="99,980 more records cannot be checked")
stream("100,000 unknown keys", lambda: "{" + ", ".join(f'"k{n}": 1' for n in range(100_000)) + "}\n")
stream("a lesson of 1 MB", lambda: '{"text": "Tam", "lesson": "' + "ab" * (MB // 2) + '"}\n')
case("jsonl: a file with a line of 100 MB", ["check", "story.jsonl", "--format", "jsonl"],
     {"story.jsonl": lambda: '{"text": "' + "a" * 100 * MB + '"}\n'}, 1, "larger than 32 MB")

# --- documents --------------------------------------------------------------------------------------------------------------------

for tag in ["div", "b", "span", "ul><li", "table", "table><tr><td", "p", "a", "select", "svg", "script", "style", "title", "textarea", "template", "button", "h1", "math", "noscript", "option"]:
    story(f"nested {tag}", "html", lambda tag=tag: f"<{tag}>" * (MB // (len(tag) + 2)))
story("nested div, with text", "html", lambda: "<div>a" * (MB // 6))
story("closed nested div", "html", lambda: "<div>" * 90_000 + "a" + "</div>" * 90_000)
story("misnested", "html", lambda: "<b><i>a</b>" * (MB // 11))
story("attributes", "html", lambda: "<p " + " ".join(f"a{n}=1" for n in range(120_000)) + ">Tam</p>")
story("an attribute of 1 MB", "html", lambda: "<p class='" + "a " * (MB // 2) + "'>Tam</p>")
story("style attributes", "html", lambda: "<p style='" + "a:b;" * (MB // 4) + "'>Tam</p>")
story("entities", "html", lambda: "&amp;" * (MB // 5))
story("broken entities", "html", lambda: "&" * MB)
story("open tags", "html", lambda: "<" * MB)
story("comments", "html", lambda: "<!--" * (MB // 4))
story("one comment", "html", lambda: "<!--" + "-" * MB)
story("closing tags", "html", lambda: "</p>" * (MB // 4))
story("a text without tags", "html", lambda: "night " * (MB // 6))
story("meta tags", "html", lambda: "<meta charset=x>" * (MB // 16))
for piece in [">", "> ", "- ", "1. ", "* ", "[", "![", "[a](", "*", "_", "**a", "`", "``a`", "<a ", "<", "&", "\\", "|", "|a|\n|-|\n", "#", "---\n", "[^a]:", "~~~\n", "~~a", "a\n=\n", "<!--", "[a]: b\n", "\t", "  \n", "![a](<", "$", "{", "<!A ", "<?", "<![CDATA["]:
    story("1 MB of " + repr(piece), "md", lambda piece=piece: piece * (MB // len(piece)))
story("nested lists", "md", lambda: "".join("  " * n + "- a\n" for n in range(1_000)))
story("nested quotes by line", "md", lambda: "".join(">" * n + "a\n" for n in range(1_400)))
story("many references", "md", lambda: "".join(f"[a{n}]: /b\n" for n in range(40_000)) + "".join(f"[a{n}]" for n in range(40_000)))
story("references that grow", "md", lambda: "[a]: /" + "b" * 100_000 + "\n\n" + "[a]" * 100_000)
story("footnotes", "md", lambda: "".join(f"[^{n}]: a\n\n" for n in range(40_000)) + "".join(f"[^{n}]" for n in range(40_000)))
story("a wide table", "md", lambda: "|" + "a|" * 20_000 + "\n|" + "-|" * 20_000 + "\n" + "|a\n" * 20_000)
story("emphasis", "md", lambda: "*a **b " * (MB // 7))
story("emphasis both ways", "md", lambda: "a**b" + "c* " * (MB // 3))
story("links in links", "md", lambda: "[" * 50_000 + "a" + "](b)" * 50_000)
story("code spans", "md", lambda: "".join("`" * n + "a" for n in range(1_400)))

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
CONTAINER = ('<container xmlns="urn:oasis:names:tc:opendocument:xmlns:container"><rootfiles><rootfile full-path="o"/></rootfiles></container>')


def archive(files, level=9):
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=level) as made:
        for name, text in files.items():
            made.writestr(name, text)
    return out.getvalue()


def docx(xml):
    return lambda: archive({
        "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>',
        "_rels/.rels": '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" '
        'Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="word/document.xml"/></Relationships>',
        "word/document.xml": xml(),
    })


def body(text):
    return f'<w:document xmlns:w="{W}"><w:body>{text}</w:body></w:document>'


def odt(text):
    return lambda: archive({
        "mimetype": "application/vnd.oasis.opendocument.text",
        "content.xml": '<o:document-content xmlns:o="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
        'xmlns:t="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:s="urn:oasis:names:tc:opendocument:xmlns:style:1.0">'
        + text() + "</o:document-content>",
    })


def package(pages):
    items = "".join(f'<item id="p{n}" href="p{n}" media-type="application/xhtml+xml"/>' for n in range(pages))
    order = "".join(f'<itemref idref="p{n}"/>' for n in range(pages))
    return f'<package xmlns="http://www.idpf.org/2007/opf"><manifest>{items}</manifest><spine>{order}</spine></package>'


def epub(pages):
    def make():
        made = pages()
        files = {"mimetype": "application/epub+zip", "META-INF/container.xml": CONTAINER, "o": package(len(made))}
        return archive({**files, **{f"p{n}": page for n, page in enumerate(made)}})
    return make


def deflated(data):
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    return packer.compress(data) + packer.flush()


def raw(entries, count=None):
    """An archive by hand: (name, packed, crc, size, header offset or None)."""
    out, directory = bytearray(), bytearray()
    for name, packed, crc, size, at in entries:
        name = name.encode()
        if at is None:
            at = len(out)
            out += struct.pack("<4s5H3L2H", b"PK\3\4", 20, 0, 8, 0, 33, crc, len(packed), size, len(name), 0) + name + packed
        directory += struct.pack("<4s6H3L5H2L", b"PK\1\2", 20, 20, 0, 8, 0, 33, crc, len(packed), size, len(name), 0, 0, 0, 0, 0, at) + name
    count = len(entries) if count is None else count
    return bytes(out) + bytes(directory) + end(count, len(directory), len(out))


def end(count, size, at):
    if count < 65_535:
        return struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, count, count, size, at, 0)
    here = at + size
    return (struct.pack("<4sQ2H2L4Q", b"PK\6\6", 44, 45, 45, 0, 0, count, count, size, at) + struct.pack("<4sLQL", b"PK\6\7", 0, here, 1)
            + struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, 65_535, 65_535, 2**32 - 1, 2**32 - 1, 0))


def plain(name, text):
    data = text.encode()
    return name, deflated(data), zlib.crc32(data), len(data), None


def overlapping(pages, page):
    """An e-book whose pages are all the same bytes of the file, under other names."""
    def make():
        data = page()
        packed, crc = deflated(data), zlib.crc32(data)
        first = [plain("META-INF/container.xml", CONTAINER), plain("o", package(pages)), ("p0", packed, crc, len(data), None)]
        at = sum(30 + len(name) + len(bytes) for name, bytes, *_ in first[:2])
        # A header of two letters' name has room for no other: names of one length differ in the directory alone.
        return raw(first + [(f"p{n}", packed, crc, len(data), at) for n in range(1, pages)])
    return make


def staggered(pages, page):
    """An e-book whose pages each begin within the one before: a block of it that is not packed quotes the header of the next."""
    def header(signature, name, packed, text):
        rest = struct.pack("<5H3L2H", 20, 0, 8, 0, 33, zlib.crc32(text), len(packed), len(text), len(name), 0)
        return signature + rest

    def make():
        local, text, packed = [], page(), deflated(page())
        for number in reversed(range(pages)):
            name = f"p{number}".encode()
            head = header(b"PK\3\4", name, packed, text) + name
            local.append((name, head, packed, text))
            packed, text = struct.pack("<B2H", 0, len(head), 65_535 - len(head)) + head + packed, head + text
        frame = [("META-INF/container.xml", CONTAINER.encode()), ("o", package(pages).encode())]
        out, directory = bytearray(), bytearray()
        for name, text in frame:
            name, packed = name.encode(), deflated(text)
            directory += entry(name, packed, text, len(out))
            out += header(b"PK\3\4", name, packed, text) + name + packed
        for number, (name, head, packed, text) in enumerate(reversed(local)):
            if number:
                out += struct.pack("<B2H", 0, len(head), 65_535 - len(head))
            directory += entry(name, packed, text, len(out))
            out += head
        out += deflated(page())
        return bytes(out) + bytes(directory) + end(pages + 2, len(directory), len(out))

    def entry(name, packed, text, at):
        return (struct.pack("<4s6H3L5H2L", b"PK\1\2", 20, 20, 0, 8, 0, 33, zlib.crc32(text), len(packed), len(text), len(name), 0, 0, 0, 0, 0, at)
                + name)
    return make


story("overlapping pages", "epub", overlapping(230, lambda: b"<p>" + b"night " * 170_000), "overlap", 2)
story("staggered pages", "epub", staggered(200, lambda: b"<p>" + b"night " * 170_000), "overlap", 2)
story("many pages that unpack to much", "epub", epub(lambda: [b"<p>" + b"night " * 170_000] * 250), code=2)
story("nested pages", "epub", epub(lambda: [b"<div>" * 200_000] * 7))
story("2 million names", "epub", lambda: raw_many(2_000_000), code=2)
story("200,000 names", "docx", lambda: raw_many(200_000), code=2)
story("a directory that says it is large", "docx", lambda: raw([plain("a", "b")] * 10, count=60_000), code=2)
story("many ends of directories", "docx", lambda: many_ends(), code=2)
story("zeros", "docx", docx(lambda: "\0" * 60 * MB), code=2)
story("one part of 64 MB", "docx", docx(lambda: body("<w:p><w:r><w:t>night</w:t></w:r></w:p>" * (60 * MB // 39))), code=2, says="it unpacks to more than")
story("a part of 1 MB, many times", "docx", docx(lambda: body("<w:p/>" * (60 * MB // 6))), code=2)
story("entities of its own", "docx", docx(lambda: '<!DOCTYPE a [<!ENTITY b "' + "b" * 1000 + '">' + "".join(
    f'<!ENTITY b{n} "{f"&b{n - 1};" * 10}">' for n in range(1, 20)).replace("&b0;", "&b;") + "]>" + body("<w:p>&b19;</w:p>")), code=2)
story("attributes", "docx", docx(lambda: body("<w:p " + " ".join(f'a{n}="1"' for n in range(500_000)) + "/>")), code=0)
story("attributes on many elements", "docx", docx(lambda: body(("<w:p " + " ".join(f'a{n}="1"' for n in range(100)) + "/>") * 50_000)), code=2)
story("namespaces", "docx", docx(lambda: body("<w:p " + " ".join(f'xmlns:n{n}="u{n}"' for n in range(100_000)) + "/>")), code=2)
story("namespaces within namespaces", "docx", docx(lambda: body("".join(f'<a xmlns:n{n}="u{n}">' for n in range(250)) + "<b/>" * (20 * MB // 4) + "</a>" * 250)), code=2)
story("nested elements", "docx", docx(lambda: body("<w:p>" * 5_000_000)), code=2)
story("nested paragraphs", "docx", docx(lambda: body(("<w:p>" * 900 + "</w:p>" * 900) * 4_000)), code=2)
story("runs", "docx", docx(lambda: body("<w:p>" + "<w:r><w:t>a</w:t></w:r>" * (20 * MB // 24) + "</w:p>")), code=2)
story("styles", "odt", odt(lambda: "<o:automatic-styles>" + "".join(f'<s:style s:name="s{n}" s:parent-style-name="s{n - 1}"/>' for n in range(300_000)) + "</o:automatic-styles><o:body><o:text><t:p t:style-name='s299999'>Tam</t:p></o:text></o:body>"), code=0)
story("styles in a row that are all used", "odt", odt(lambda: "<o:automatic-styles>" + "".join(f'<s:style s:name="s{n}" s:parent-style-name="s{n - 1}"/>' for n in range(20_000)) + "</o:automatic-styles><o:body><o:text>" + "".join(f'<t:p t:style-name="s{n}">Tam</t:p>' for n in range(20_000)) + "</o:text></o:body>"), code=0)
story("spaces", "odt", odt(lambda: "<o:body><o:text><t:p>" + '<t:s t:c="1000000000"/>' * 800_000 + "</t:p></o:text></o:body>"), code=2)
story("a manifest of many items", "epub", lambda: archive({"mimetype": "application/epub+zip", "META-INF/container.xml": CONTAINER, "o": package(200_000)}), code=2)
story("a page listed many times", "epub", lambda: archive({"mimetype": "application/epub+zip", "META-INF/container.xml": CONTAINER, "p0": "<p>Tam</p>",
      "o": package(1).replace('<itemref idref="p0"/>', '<itemref idref="p0"/>' * 500_000)}), code=2)
story("a long address", "epub", lambda: archive({"mimetype": "application/epub+zip", "META-INF/container.xml": CONTAINER,
      "o": package(1).replace('href="p0"', 'href="' + "../a/" * 200_000 + '"')}), code=2)


FILLER = os.urandom(800_000)


def padded(make):
    """The same archive with a file that cannot be packed, so that as much as possible may come out of the others."""
    def made():
        out = io.BytesIO(make())
        with zipfile.ZipFile(out, "a", zipfile.ZIP_STORED) as archive:
            archive.writestr("filler", FILLER)
        return out.getvalue()
    return made


# A part may become so much larger than it was: so it begins with something that cannot be packed either.
NOISE = os.urandom(90_000).hex()


def filled(unit, size=20 * MB):
    return unit * (size // len(unit))


story("as much as may come out of 1 MB", "epub", padded(epub(lambda: [filled("night sun ", MB)] * 21)), code=(0, 1))
for unit in ["&a;", "&", "<p>a", "&notit;", "<td>a", "<a b='&amp;'>", "<p hidden><p>"]:
    story("as much as may come out of 1 MB, of " + unit, "epub", padded(epub(lambda unit=unit: [filled(unit, MB)] * 19)), code=(0, 1))
for unit in ["<w:p/>", "<w:p><w:r><w:t>a</w:t></w:r></w:p>", "&amp;", "<a b='c'/>", "<w:r><w:rPr><w:vanish/></w:rPr><w:t>a</w:t></w:r>", "<w:t>a</w:t>",
             "<w:pStyle w:val='a'/>"]:
    story("as much as may come out of 1 MB, of " + unit, "docx", padded(docx(lambda unit=unit: body(f"<!--{NOISE}-->" + filled(unit)))), code=(0, 1))
story("many namespaces, as much as may come out of 1 MB", "docx",
      padded(docx(lambda: body("".join(f'<a xmlns:n{n}="u{n}">' for n in range(250)) + f"<!--{NOISE}-->" + filled("<b/>") + "</a>" * 250))), code=(0, 1))
story("deep, as much as may come out of 1 MB", "docx", padded(docx(lambda: body(f"<!--{NOISE}-->" + filled("<w:p>" * 900 + "</w:p>" * 900)))), code=(0, 1))
for unit in ["<t:p>a</t:p>", "<t:s/>", "<t:p t:style-name='s1'>a</t:p>", "<t:span t:style-name='s1'>a</t:span>"]:
    story("as much as may come out of 1 MB, of " + unit, "odt",
          padded(odt(lambda unit=unit: f"<!--{NOISE}--><o:body><o:text><t:p>" + filled(unit) + "</t:p></o:text></o:body>")), code=(0, 1))
story("10,000 names of one place", "docx", lambda: raw_many(9_999), "overlap", 2)


def raw_many(n):
    directory = b"".join(struct.pack("<4s6H3L5H2L", b"PK\1\2", 20, 20, 0, 0, 0, 33, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0) + b"%07d" % k for k in range(n))
    return b"PK\3\4" + directory + end(n, len(directory), 4)


def many_ends():
    n = 9_000
    directory = raw_many(n)[4:]
    directory = directory[:n * 53 - 60]
    one = struct.pack("<4s4H2LH", b"PK\5\6", 0, 0, n, n, len(directory), 4, 0)
    return b"PK\3\4" + directory + one * 22_000


# --- the editor -------------------------------------------------------------------------------------------------------------------

def session(name, uri, language, text, code=0):
    def messages():
        said = [
            {"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"capabilities": {}}},
            {"jsonrpc": "2.0", "method": "initialized", "params": {}},
            {"jsonrpc": "2.0", "method": "textDocument/didOpen",
             "params": {"textDocument": {"uri": uri, "languageId": language, "version": 1, "text": text()}}},
            # Before a question is answered, what was found is told.
            {"jsonrpc": "2.0", "id": 2, "method": "textDocument/hover", "params": {"textDocument": {"uri": uri}, "position": {"line": 1, "character": 1}}},
            {"jsonrpc": "2.0", "id": 3, "method": "shutdown"},
            {"jsonrpc": "2.0", "method": "exit"},
        ]
        frames = [json.dumps(message).encode() for message in said]
        return b"".join(b"Content-Length: %d\r\n\r\n%s" % (len(frame), frame) for frame in frames)
    case("editor: " + name, ["editor"], {"messages": messages}, code, "", "messages")


session("10,000 unknown spellings", "file:///tmp/s.yaml", "yaml",
        lessons(lambda: "".join(f"- teach: [{', '.join(words(10_000)[n * 10:n * 10 + 10])}]\n" for n in range(1000))))
session("100,000 unknown keys", "file:///tmp/s.yaml", "yaml", lessons(lambda: "- a: 1\n" + "".join(f"  k{n}: 1\n" for n in range(100_000))))
session("60,000 lessons", "file:///tmp/s.yaml", "yaml", lessons(lambda: "".join(f"- sight: [{w}]\n" for w in words(60_000))))
session("a story whose scope is a device", "file:///tmp/a.txt", "plaintext", lambda: "---\nscope: /dev/zero\n---\nTam sat.\n")
session("front matter with 50,000 names", "file:///tmp/a.txt", "plaintext", lambda: "---\nnames: [" + ", ".join(words(50_000)) + "]\n---\nTam sat.\n")
session("a story of 1 MB", "file:///tmp/a.txt", "plaintext", lambda: " ".join(words(MB // 6)))
session("a story of one word", "file:///tmp/a.txt", "plaintext", lambda: "ab" * (MB // 2))
