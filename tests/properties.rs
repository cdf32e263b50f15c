//! What must always hold, on whatever text and whatever scope.

use proptest::prelude::*;
use unicode_segmentation::UnicodeSegmentation as _;
use untaught::{
    Checker, Focus, Judge, LessonIndex, Options, Pattern, Reader, Reading, Scope, TokenKind, Word, check, fold_word,
    tokens,
};

/// The words of a text by the annex itself, without the fast way: what is joined only by `.`, `:` or `_` is divided, but not numbers.
fn by_the_annex(text: &str) -> Vec<(usize, usize)> {
    let mut spans = Vec::new();
    for (start, segment) in text.unicode_word_indices() {
        let chars: Vec<(usize, char)> = segment.char_indices().collect();
        let is_numeric = |n: Option<usize>| n.and_then(|n| chars.get(n)).is_some_and(|(_, c)| c.is_numeric());
        let mut cuts = vec![(0, 0)];
        for (n, (at, c)) in chars.iter().enumerate() {
            let mark = ['.', ':', '_', '\u{b7}', '\u{2024}', '\u{2027}'].contains(c);
            if mark && !(is_numeric(n.checked_sub(1)) && is_numeric(Some(n + 1))) {
                cuts.push((*at, at + c.len_utf8()));
            }
        }
        cuts.push((segment.len(), segment.len()));
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0].1, pair[1].0);
            if segment[from..to].chars().any(char::is_alphanumeric) {
                spans.push((start + from, start + to));
            }
        }
    }
    spans
}

/// Text like a story's, with what makes finding words hard mixed in.
fn story() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        6 => "[A-Za-z]{1,9}",
        2 => "[ \n\t]{1,2}",
        2 => "[ ]",
        1 => "[a-z]{1,4}['\u{2019}][a-z]{0,3}",
        1 => "[0-9.,:]{1,5}",
        1 => "[-_.,:;!?'\"*()\u{201c}\u{201d}\u{2014}\u{2026}]{1,3}",
        1 => "[é\u{301}ﬁ\u{4e2d}\u{5d0}\u{1f600}ä]{1,3}",
    ];
    proptest::collection::vec(piece, 0..40).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn the_fast_way_finds_the_words_of_the_annex(text in story()) {
        let found: Vec<(usize, usize)> = tokens(&text).map(|token| (token.span.start, token.span.end)).collect();
        prop_assert_eq!(found, by_the_annex(&text));
    }

    #[test]
    fn the_fast_way_finds_the_words_of_the_annex_in_ascii(text in "[ -~\n]{0,60}") {
        let found: Vec<(usize, usize)> = tokens(&text).map(|token| (token.span.start, token.span.end)).collect();
        prop_assert_eq!(found, by_the_annex(&text));
    }

    #[test]
    fn tokens_stand_in_order_on_character_boundaries(text in any::<String>()) {
        let mut last = 0;
        for token in tokens(&text) {
            prop_assert!(token.span.start >= last && token.span.start < token.span.end);
            prop_assert!(text.is_char_boundary(token.span.start) && text.is_char_boundary(token.span.end));
            prop_assert!(text[token.span.clone()].chars().any(char::is_alphanumeric));
            last = token.span.end;
        }
    }
}

/// Spellings that restrict nothing else: no doubled consonants, and each given bare.
const SPELLINGS: [&str; 34] = [
    "a", "e", "i", "o", "u", "b", "c", "d", "f", "g", "h", "l", "m", "n", "p", "r", "s", "t", "w", "ck", "sh", "ch",
    "th", "ng", "a_e", "i_e", "ee", "ai", "igh", "ar", "er", "or", "ed", "le",
];

const WORDS: [&str; 24] = [
    "cat", "ship", "rabbit", "night", "hoping", "made", "rained", "jumped", "apple", "butter", "pages", "star",
    "think", "chill", "paper", "landed", "tree", "dogs", "fern", "storm", "lighting", "bathtub", "goatherd", "mip",
];

/// A scope of up to eight lessons that teach the spellings named by number.
fn scope_text(lessons: &[Vec<usize>]) -> String {
    let mut text = "format: 1\nlessons:\n".to_owned();
    let mut taught = Vec::new();
    for lesson in lessons {
        let mut entries = Vec::new();
        for number in lesson {
            if !taught.contains(number) {
                taught.push(*number);
                entries.push(format!("\"{}\"", SPELLINGS[*number]));
            }
        }
        text.push_str(&format!("- teach: [{}]\n", entries.join(", ")));
    }
    text
}

fn lessons() -> impl Strategy<Value = Vec<Vec<usize>>> {
    proptest::collection::vec(proptest::collection::vec(0..SPELLINGS.len(), 0..9), 1..8)
}

/// The earliest lesson of a reading, by trying every division into taught patterns: slow and plain.
fn naive(judge: &Judge<'_>, word: &Word, reading: &Reading) -> Option<LessonIndex> {
    // With no runs and no skills in the scope, every part stands alone: the bottleneck is the latest of them.
    let cover = judge.cover(word, reading);
    assert_eq!(cover.steps.iter().map(|step| step.parts).sum::<usize>(), reading.parts.len());
    let lessons: Option<Vec<LessonIndex>> = cover.steps.iter().map(|step| step.need.lesson()).collect();
    let own = lessons?.into_iter().max().unwrap_or_default();
    // No form of a word is earlier than the word.
    match judge.held_back_by(word, reading) {
        Some((_, base)) => base,
        None => Some(own),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn a_text_is_never_less_readable_at_a_later_lesson(lessons in lessons(), text in story()) {
        let reader = Reader::default();
        let scope = Scope::parse(&scope_text(&lessons), &reader).unwrap();
        let mut last = (0, 0);
        for (lesson, _) in scope.indexed_lessons() {
            let report = check(&text, &scope, &reader, &Options::at(lesson));
            let now = (report.tokens.decodable, report.tokens.words - report.tokens.untaught);
            prop_assert!(now.0 >= last.0 && now.1 >= last.1, "lesson {:?}", lesson);
            let counts = report.tokens;
            prop_assert_eq!(counts.words, counts.decodable + counts.sight + counts.story + counts.untaught);
            prop_assert_eq!(counts.words + counts.uncounted, tokens(&text).count());
            last = now;
        }
    }

    #[test]
    fn one_more_pattern_never_makes_a_word_later(lessons in lessons(), more in 0..SPELLINGS.len(), at in 0..8usize) {
        let reader = Reader::default();
        let before = Scope::parse(&scope_text(&lessons), &reader).unwrap();
        let mut richer = lessons.clone();
        let at = at % lessons.len();
        richer[at].push(more);
        let after = Scope::parse(&scope_text(&richer), &reader).unwrap();
        for word in WORDS {
            let first = |scope| Judge::new(&reader, scope).judge(word).first_decodable().map_or(usize::MAX, LessonIndex::get);
            prop_assert!(first(&after) <= first(&before), "{} with {} at {}", word, SPELLINGS[more], at);
        }
    }

    #[test]
    fn the_earliest_lesson_is_the_bottleneck_of_the_covering(lessons in lessons()) {
        let reader = Reader::default();
        let scope = Scope::parse(&scope_text(&lessons), &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        for word in WORDS {
            let verdict = judge.judge(word);
            let least = verdict.word.readings.iter().filter_map(|reading| naive(&judge, &verdict.word, reading)).min();
            prop_assert_eq!(verdict.first_decodable(), least, "{}", word);
            // Whatever is decodable needs nothing more, and whatever is not, does.
            for (lesson, _) in scope.indexed_lessons() {
                let needs = judge.needs(&verdict, lesson);
                prop_assert_eq!(needs.is_empty(), verdict.first_decodable().is_some_and(|first| first <= lesson), "{}", word);
            }
        }
    }

    #[test]
    fn every_string_gets_a_verdict(word in any::<String>()) {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let verdict = judge.judge(&fold_word(&word));
        prop_assert!(!verdict.word.readings.is_empty());
        prop_assert!(verdict.word.readings.iter().all(|reading| !reading.parts.is_empty()));
    }

    #[test]
    fn a_scope_file_is_read_or_refused_with_a_place(text in any::<String>()) {
        let reader = Reader::default();
        if let Err(faults) = Scope::parse(&text, &reader) {
            prop_assert!(!faults.is_empty());
            prop_assert!(faults.iter().all(|fault| fault.position.line >= 1 && fault.position.column >= 1));
            prop_assert!(faults.iter().all(|fault| !fault.message.is_empty()));
        }
    }

    #[test]
    fn a_word_is_judged_alone(text in story(), word in "[a-z]{2,8}") {
        // Kisses at the end of a letter are no words.
        prop_assume!(!word.bytes().all(|b| b == b'x'));
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let status = |text: &str| {
            let report = check(text, &scope, &reader, &Options::at(LessonIndex::new(20).unwrap()));
            report.distinct.iter().find(|distinct| distinct.verdict.word.text == word).map(|distinct| distinct.status)
        };
        let alone = status(&word);
        prop_assert!(alone.is_some());
        prop_assert_eq!(status(&format!("{text} {word}")), alone);
    }
}

/// A text of few words, so that the next one has the same, and how to check it.
fn checked() -> impl Strategy<Value = (String, Options)> {
    let more = ["Wind", "read", "Rob", "rob", "Rob's", "the", "said", "THE", "zzz", "live", "3rd", "anti-thesis"];
    let word = proptest::sample::select([&WORDS[..], &more].concat());
    let text = proptest::collection::vec((word, prop_oneof![4 => Just(" "), 1 => Just(". ")]), 0..30);
    let text = text.prop_map(|words| words.into_iter().flat_map(|(word, gap)| [word, gap]).collect::<String>());
    let declared = proptest::sample::subsequence(vec!["rob".to_owned(), "night".to_owned(), "cat".to_owned()], 0..=3);
    let focus = proptest::option::of(proptest::sample::select(vec!["igh", "-ed", "sh"]));
    let options = (0..3usize, declared, any::<[bool; 2]>(), focus, 0..3usize);
    (text, options).prop_map(|(text, (lesson, declared, [every_word, allow_names], focus, places))| {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let focus = focus.map(|pattern| Focus::of(&scope, &[Pattern::parse(pattern, &reader).unwrap()]));
        let options = Options {
            declared,
            every_word,
            allow_names,
            focus,
            places,
            ..Options::at(LessonIndex::new(lesson * 25).unwrap())
        };
        (text, options)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn what_a_checker_has_met_before_changes_nothing(texts in proptest::collection::vec(checked(), 1..6)) {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let mut checker = Checker::new(&scope, &reader);
        for (text, options) in texts {
            let alone = check(&text, &scope, &reader, &options);
            prop_assert_eq!(format!("{:?}", checker.check(&text, &options)), format!("{alone:?}"));
        }
    }
}

#[test]
fn kinds_are_told_apart() {
    let kinds: Vec<TokenKind> = tokens("I saw 3 b a").map(|token| token.kind).collect();
    assert_eq!(kinds, [TokenKind::Word, TokenKind::Word, TokenKind::Other, TokenKind::Other, TokenKind::Word]);
}
