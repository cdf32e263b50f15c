//! What the desk answers.

use proptest::prelude::*;
use serde_json::{Value, json};
use untaught_page::Desk;

fn answer(desk: &mut Desk, question: &Value) -> Value {
    serde_json::from_str(&desk.answer(&question.to_string())).unwrap()
}

fn starter() -> Value {
    json!({"name": "starter"})
}

#[test]
fn a_story_is_marked_with_places_as_a_browser_counts() {
    let mut desk = Desk::default();
    let text = "😀 Tam sat. é night";
    let marked = answer(&mut desk, &json!({"ask": "mark", "scope": starter(), "lesson": 5, "text": text}));
    let words: Vec<usize> = marked["words"].as_array().unwrap().iter().map(|n| n.as_u64().unwrap() as usize).collect();
    let units: Vec<u16> = text.encode_utf16().collect();
    let written: Vec<String> = words.chunks(3).map(|w| String::from_utf16(&units[w[0]..w[1]]).unwrap()).collect();
    assert_eq!(written.first().map(String::as_str), Some("Tam"));
    assert_eq!(written.last().map(String::as_str), Some("night"));
    assert_eq!(marked["untaught"][0]["needs"], "needs igh as in night (lesson 33)");
    assert_eq!(marked["untaught"][0]["hurdle"], json!({"label": "igh as in night", "lesson": 32}));
    assert_eq!(marked["curve"]["readable"].as_array().unwrap().len(), 60);
}

#[test]
fn a_declared_name_is_told_beforehand() {
    let mut desk = Desk::default();
    let asked = |names: &[&str]| json!({"ask": "mark", "scope": starter(), "lesson": 5, "text": "Tam met Theodora.", "names": names});
    let before = answer(&mut desk, &asked(&[]));
    let after = answer(&mut desk, &asked(&["Theodora"]));
    assert_eq!((before["counts"]["untaught"].clone(), before["counts"]["story"].clone()), (json!(1), json!(0)));
    assert_eq!((after["counts"]["untaught"].clone(), after["counts"]["story"].clone()), (json!(0), json!(1)));
}

#[test]
fn a_word_is_told_with_its_cutting_and_what_it_needs() {
    let mut desk = Desk::default();
    let about = answer(&mut desk, &json!({"ask": "word", "scope": starter(), "lesson": 10, "word": "Huge"}));
    assert_eq!((about["status"].as_str(), about["word"].as_str()), (Some("untaught"), Some("huge")));
    let parts: Vec<&str> =
        about["reading"]["parts"].as_array().unwrap().iter().map(|part| part["spelling"].as_str().unwrap()).collect();
    assert_eq!(parts, ["h", "u_e", "g"]);
    assert!(about["missing"].as_array().is_some_and(|missing| !missing.is_empty()));
    assert!(about["swaps"].as_array().unwrap().iter().any(|swap| swap["text"] == "Big"), "{}", about["swaps"]);
    assert!(about["reading"]["drawing"].as_str().unwrap().starts_with("<svg"));
}

#[test]
fn a_word_that_may_go_is_told_with_the_article_of_the_next() {
    let mut desk = Desk::default();
    let mut asked = |before: &str, word: &str, after: &str| {
        answer(
            &mut desk,
            &json!({"ask": "word", "scope": starter(), "lesson": 20, "word": word, "before": before, "after": after}),
        )
    };
    assert_eq!(asked("She had an ", "untidy", " tent.")["without"]["article"], "a");
    assert_eq!(asked("She put it ", "gently", " under the mat.")["without"], json!({ "article": null }));
    assert_eq!(asked("It was ", "untidy", ".")["without"], json!(null));
}

#[test]
fn a_rewording_is_told_with_places_as_a_browser_counts() {
    let mut desk = Desk::default();
    let asked = json!({"ask": "word", "scope": starter(), "lesson": 24, "word": "sitting", "before": "😀 Fenn was ", "after": " on it."});
    let made = json!({"old": "was sitting", "new": "sat", "before": 4, "after": 0});
    assert_eq!(answer(&mut desk, &asked)["rewordings"][0], made);
    let story = "Fenn began to run. A robin sang.";
    let plan = json!({"ask": "plan", "scope": starter(), "lesson": 24, "text": story, "goal": 100});
    let steps = &answer(&mut desk, &plan)["steps"];
    let made = json!({"old": "began to run", "new": "ran", "before": 0, "after": 7});
    assert!(steps.as_array().unwrap().iter().any(|step| step["rewordings"][0] == made), "{steps}");
}

#[test]
fn a_scope_of_ones_own_counts_and_its_faults_are_told_with_their_lines() {
    let mut desk = Desk::default();
    let own = |text: &str| json!({"ask": "scope", "scope": {"text": text}});
    let good = answer(&mut desk, &own("format: 1\ntitle: Ours\nlessons:\n- teach: [s, a, t, m]\n- teach: [igh]\n"));
    assert_eq!((good["title"].as_str(), good["lessons"].as_array().unwrap().len()), (Some("Ours"), 2));
    let bad = answer(&mut desk, &own("format: 1\nlessons:\n- teach: [s, a]\n- teech: [igh]\n"));
    assert_eq!(bad["faults"][0]["line"], 4);
    assert!(bad["faults"][0]["message"].as_str().unwrap().contains("teach"), "{bad}");
    assert!(answer(&mut desk, &json!({"ask": "scope", "scope": {"name": "nowhere"}}))["problem"].is_string());
}

#[test]
fn a_scope_is_written_on_the_page_and_used() {
    let mut desk = Desk::default();
    let lines = answer(&mut desk, &json!({"ask": "lines", "text": "s a t m\nMore: igh n | the\n"}));
    let mut draft = json!({"title": "Ours", "lessons": lines["lessons"]});
    let written = answer(&mut desk, &json!({"ask": "draft", "draft": draft}));
    assert_eq!(written["faults"], json!([]));
    let marked =
        json!({"ask": "mark", "scope": {"text": written["text"]}, "lesson": 1, "text": "The mat. Sat at night."});
    assert_eq!(answer(&mut desk, &marked)["counts"]["untaught"], 0);
    draft["lessons"][1]["teach"] = json!("igh nn zzq");
    let faulty = answer(&mut desk, &json!({"ask": "draft", "draft": draft}));
    let faults = faulty["faults"].as_array().unwrap();
    assert_eq!((faults.len(), &faults[0]["lesson"], &faults[0]["field"]), (1, &json!(1), &json!("teach")), "{faulty}");
    // A file with faults is taken up too, and gives the same ones.
    let begun = answer(&mut desk, &json!({"ask": "begin_draft", "scope": {"text": faulty["text"]}}));
    assert_eq!(answer(&mut desk, &json!({"ask": "draft", "draft": begun["draft"]}))["faults"], faulty["faults"]);
    let found = answer(&mut desk, &json!({"ask": "catalogue", "search": "night"}));
    assert!(found["patterns"].as_array().unwrap().iter().any(|one| one["pattern"] == "igh"), "{found}");
    assert_eq!(answer(&mut desk, &json!({"ask": "draft_choices"}))["skills"].as_array().unwrap().len(), 8);
    assert!(answer(&mut desk, &json!({"ask": "begin_draft", "scope": {"text": "lessons: ["}}))["faults"].is_array());
    assert!(answer(&mut desk, &json!({"ask": "begin_draft", "scope": {"name": "nowhere"}}))["problem"].is_string());
}

#[test]
fn every_list_of_every_lesson_is_made_or_says_why_not() {
    let mut desk = Desk::default();
    for lesson in (0..60).step_by(11) {
        let at = |ask: &str| json!({"ask": ask, "scope": starter(), "lesson": lesson, "seed": 3});
        let mut words = at("words");
        words.as_object_mut().unwrap().remove("seed");
        words["limit"] = json!(20);
        assert!(answer(&mut desk, &words)["found"].is_number());
        for ask in ["chain", "dictation"] {
            let made = answer(&mut desk, &at(ask));
            assert!(made["words"].is_array() || made["new"].is_array() || made["problem"].is_string(), "{ask} {made}");
        }
        let pack = answer(&mut desk, &at("pack"));
        for list in ["listening", "blending", "chain", "dictation"] {
            let lacking = pack["lacking"].as_array().unwrap().iter().any(|one| one["list"] == list);
            assert_eq!(pack[list].is_null(), lacking, "{list} {pack}");
        }
    }
    let heard = answer(
        &mut desk,
        &json!({"ask": "contrast", "scope": starter(), "lesson": 14, "sound": "sh", "count": 4, "seed": 1}),
    );
    assert_eq!(heard["items"].as_array().unwrap().len(), 8);
    assert!(heard["heading"].as_str().unwrap().contains("the sh of ship"), "{}", heard["heading"]);
    // The last lesson teaches endings alone: a sound from before is taken.
    let heard = answer(&mut desk, &json!({"ask": "contrast", "scope": starter(), "lesson": 59, "count": 4}));
    assert_eq!(heard["items"].as_array().map(Vec::len), Some(8), "{heard}");
    let boxes = answer(&mut desk, &json!({"ask": "boxes", "text": "box, one; 7"}));
    assert_eq!(boxes["words"][0]["boxes"]["sounds"], 4);
    assert_eq!(boxes["words"][1]["drawing"], Value::Null);
    assert_eq!(boxes["words"].as_array().unwrap().len(), 2);
}

#[test]
fn words_are_read_in_the_accent_of_the_scope() {
    let mut desk = Desk::default();
    let england = json!({"name": "england-years-1-2"});
    let shown = |desk: &mut Desk, scope: &Value| {
        let word = answer(desk, &json!({"ask": "word", "scope": scope, "lesson": 20, "word": "car"}));
        word["reading"]["ipa"].clone()
    };
    assert_eq!([shown(&mut desk, &england), shown(&mut desk, &starter())], ["kɑː", "kɑr"]);
    let boxes = answer(&mut desk, &json!({"ask": "boxes", "scope": england, "text": "car"}));
    assert_eq!(boxes["words"][0]["boxes"]["boxes"][1]["sounds"], json!(["ɑː"]));
}

#[test]
fn a_report_says_what_the_marks_say() {
    let mut desk = Desk::default();
    let report = answer(
        &mut desk,
        &json!({"ask": "report", "scope": starter(), "lesson": 11, "text": "Tam sat at night.", "title": "Tam"}),
    );
    let text = report["text"].as_str().unwrap();
    assert!(text.starts_with("Tam\nLesson 12"), "{text}");
    assert!(text.contains("decodable: 75.0 %, 3 of 4 words"), "{text}");
    assert!(text.contains("- night: needs igh as in night (lesson 33)"), "{text}");
}

#[test]
fn front_matter_with_a_fault_stays_in_the_story() {
    let mut desk = Desk::default();
    let opened = answer(&mut desk, &json!({"ask": "open", "text": "---\nlevel: 4\n---\nTam sat."}));
    assert_eq!(opened["fault"]["line"], 2);
    assert_eq!(opened["story"], "---\nlevel: 4\n---\nTam sat.");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// What is saved is what is opened again.
    #[test]
    fn a_saved_story_opens_as_it_was(
        title in "[^\\p{C}]{0,20}", lesson in proptest::option::of("[0-9a-z.]{1,4}"), names in proptest::collection::vec("[A-Z][^\\p{C}]{0,8}", 0..4),
        words in proptest::collection::vec("\\PC{1,8}", 0..4), story in "[A-Za-z][\\PC\n]{0,60}",
    ) {
        let mut desk = Desk::default();
        let saved = answer(&mut desk, &json!({"ask": "save", "title": title, "lesson": lesson, "scope": null, "names": names,
            "story_words": words, "focus": [], "story": story}));
        let opened = answer(&mut desk, &json!({"ask": "open", "text": saved["text"]}));
        prop_assert_eq!(&opened["fault"], &Value::Null);
        prop_assert_eq!(opened["title"].as_str().unwrap(), title.trim());
        prop_assert_eq!(opened["lesson"].as_str(), lesson.as_deref());
        prop_assert_eq!(&opened["names"], &json!(names));
        prop_assert_eq!(&opened["story_words"], &json!(words));
        prop_assert_eq!(opened["story"].as_str().unwrap().trim_end(), story.trim_end());
    }

    /// Whatever is asked, there is an answer.
    #[test]
    fn no_question_is_too_odd(text in "\\PC{0,80}", lesson in any::<u16>()) {
        let mut desk = Desk::default();
        let marked = answer(&mut desk, &json!({"ask": "mark", "scope": starter(), "lesson": lesson, "text": text}));
        prop_assert!(marked["counts"]["words"].is_number());
        answer(&mut desk, &json!({"ask": "word", "scope": starter(), "lesson": lesson, "word": text}));
        answer(&mut desk, &json!({"ask": "boxes", "text": text}));
        answer(&mut desk, &json!({"ask": "scope", "scope": {"text": text}}));
        answer(&mut desk, &json!({"ask": "lines", "text": text, "after": lesson}));
        answer(&mut desk, &json!({"ask": "catalogue", "search": text, "accent": text}));
        let odd = json!({"title": text, "pronounce": text, "lessons": [{"id": text, "teach": text, "sight": text, "skills": text, "review": text}]});
        let written = answer(&mut desk, &json!({"ask": "draft", "draft": odd}));
        prop_assert!(written["faults"].is_array());
        answer(&mut desk, &json!({"ask": "begin_draft", "scope": {"text": text}}));
        let _: Value = serde_json::from_str(&desk.answer(&text)).unwrap();
    }
}
