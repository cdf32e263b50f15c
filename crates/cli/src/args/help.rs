//! Examples and exit codes, shown at the end of each command's help.

pub(super) const CHECK: &str = "\
EXAMPLES:
  untaught check --lesson 22 story.txt
      check one story at lesson 22
  untaught check readers/ --format html --output report.html
      check a folder and write a page to print
  untaught check --lesson 22 --names Finn,Tam --suggest story.txt
      declare names, and suggest readable replacements for untaught words
  untaught check --lesson 22 --min-decodable 80 --min-readable 95 story.txt
      accept 95 % readable words, of which enough are decodable
  pbpaste | untaught check --lesson 22
      read the story from standard input

EXIT CODES:
  0  every story meets its thresholds
  1  at least one story is below a threshold
  2  something could not be checked, or the command line is wrong";

pub(super) const PLACE: &str = "\
EXAMPLES:
  untaught place story.txt
      the first lesson at which the story can be read
  untaught place --min-readable 95 readers/
      the first lesson at which 95 % of each story can be read
  untaught place readers/ --format html --output curves.html
      a page with a curve for each story

EXIT CODES:
  0  every story can be read at its lesson, or at some lesson if it names none
  1  at least one story cannot
  2  something could not be read, or the command line is wrong";

pub(super) const SHELF: &str = "\
EXAMPLES:
  untaught shelf readers/
      what each reader practises, and which are too early or too late
  untaught shelf --order readers/
      suggest an order for the readers
  untaught shelf --enough 20 readers/ --format html --output shelf.html
      mark patterns practised fewer than 20 times, on a page with plots
  untaught shelf readers/ --format xlsx --output series.xlsx
      one spreadsheet: readers, words, patterns, lessons
  untaught shelf readers/ --scope new.yaml --against old.yaml
      which readers fit otherwise under another scope

EXIT CODES:
  0  every reader fits its lesson
  1  at least one reader comes too early or too late
  2  something could not be read, or the command line is wrong";

pub(super) const INIT: &str = "\
EXAMPLES:
  untaught init readers
      write readers/my-scope.yaml, readers/untaught.yaml and their schemas
  untaught init --scope england-years-1-2
      start from another scope, in the current folder";

pub(super) const WORDS: &str = "\
EXAMPLES:
  untaught words --lesson 15
      words that practise lesson 15's patterns
  untaught words --lesson 15 --shape CVC --limit 20
      up to twenty words of three sounds, such as ship
  untaught words --lesson 40 --focus igh --position end --syllables 1
      one-syllable words that end in igh
  untaught words --lesson 15 --all --sounds 3-4
      every word that can be sounded out, with three or four sounds

EXIT CODES:
  0  the list was made (with --format json, even if it is empty)
  1  no word matches
  2  the lesson or the scope cannot be used, or the command line is wrong";

/// Commands that either make their list or say why they cannot.
macro_rules! made {
    ($what:literal) => {
        concat!(
            "\n\nEXIT CODES:\n  0  ",
            $what,
            "\n  2  nothing was made, for the reason given, or the command line is wrong"
        )
    };
}

pub(super) const CHAIN: &str = concat!(
    "\
EXAMPLES:
  untaught chain --lesson 15
      eight steps, one sound changed at each
  untaught chain --lesson 40 --from ship --to chin
      the shortest way from one word to another
  untaught chain --lesson 15 --steps 5 --change swap,first --seed 2
      change only the first sound; another selection",
    made!("the chain was made")
);

pub(super) const BOXES: &str = concat!(
    "\
EXAMPLES:
  untaught boxes ship cake box
      boxes with their letters
  untaught boxes --blank 4
      four empty boxes
  untaught boxes ship cake --format svg
      one SVG drawing per line",
    made!("the boxes were drawn")
);

pub(super) const CONTRAST: &str = concat!(
    "\
EXAMPLES:
  untaught contrast sh
      words with the sound of sh, and words with a similar sound
  untaught contrast 'i as in sit' --position middle --count 8
      sixteen words; listen for the vowel in the middle
  untaught contrast /\u{283}/
      the sound in IPA",
    made!("the list was made")
);

pub(super) const DICTATION: &str = concat!(
    "\
EXAMPLES:
  untaught dictation --lesson 22
      six new words, six to review, and three sentences
  untaught dictation --lesson 22 --words 8 --sentences 2 --seed 3
      another selection",
    made!("the list was made")
);

pub(super) const PACK: &str = concat!(
    "\
EXAMPLES:
  untaught pack --lesson 22 story.txt --format html --output lesson.html
      a lesson to print, with its story
  untaught pack --lesson 22
      the lists alone, as Markdown
  untaught pack --lesson 22 --focus a_e --seed 2 story.txt
      practise a_e; another selection",
    made!("the pack was made")
);

pub(super) const EXPLAIN: &str = concat!(
    "\
EXAMPLES:
  untaught explain night hoping said
      how each word is split up, and the lesson at which it can be read
  untaught explain wind --scope my-scope.yaml
      the lessons of your own scope file",
    made!("the words were explained")
);

pub(super) const SCOPE: &str = "\
EXAMPLES:
  untaught scope my-scope.yaml
      check your own scope file and show its lessons
  untaught scope
      show the lessons of the scope that is used by default
  untaught scope dolch --format json
      a scope that comes with the program, for other programs
  untaught scope new.yaml readers/ --against old.yaml
      what moves, which words become readable sooner or later, which
      readers then fall short

EXIT CODES:
  0  the scope file is valid
  1  with --against and readers: at least one falls short in the new scope only
  2  nothing was made, for the reason given, or the command line is wrong";

pub(super) const PATTERNS: &str = concat!(
    "\
EXAMPLES:
  untaught patterns
      every pattern a scope file can teach
  untaught patterns ea ear
      the sounds and key words of two spellings",
    made!("the patterns were listed")
);

pub(super) const PAGE: &str = "\
EXAMPLES:
  untaught page
      open the page in the browser; stop with Ctrl-C
  untaught page --port 8000 --no-browser
      print the address only

EXIT CODES:
  2  the page could not be served, or the command line is wrong";

pub(super) const EDITOR: &str = "\
EXAMPLES:
  untaught editor
      started by an editor, not by hand: crates/editor/README.md has settings
      for Neovim, Helix, Emacs and VS Code

EXIT CODES:
  0  the editor ended the session properly
  1  the editor stopped without ending the session
  2  the connection failed, or the command line is wrong";
