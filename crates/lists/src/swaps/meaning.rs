//! Which meaning of the table a word has in its sentence, and whether an offer for it suits the place. Common practice, no source: a few
//! words before and after, no grammar.

use super::forms::{FormKind, bases};
use super::has_headword;
use super::sentence::{Around, Likely};
use super::table::{self, Meaning, PartOfSpeech};

/// The meanings that a word may have in its sentence, each with the form in which it stands; only the likely ones, if some are.
pub(super) fn meanings(word: &str, owns: bool, around: Around<'_>) -> Vec<(Meaning, FormKind)> {
    let known = |word: &str| table::find(&american(word)).next().is_some();
    let mut found: Vec<(Meaning, FormKind, Likely)> = Vec::new();
    let bases = bases(word, known);
    // *found* is the past of *find*, not to found something; *left* is the past of *leave* or a side.
    let is_past = bases.iter().any(|(_, form)| *form == FormKind::Past) && !word.ends_with("ed");
    for (base, form) in bases {
        for meaning in table::find(&american(&base)).filter(|meaning| form.fits(meaning.part_of_speech)) {
            let part_of_speech = meaning.part_of_speech;
            let unlike = is_past && form == FormKind::Base && part_of_speech == PartOfSpeech::Verb;
            if unlike || owns && part_of_speech != PartOfSpeech::Noun {
                continue;
            }
            let form = if form == FormKind::Past && around.wants_participle() { FormKind::Participle } else { form };
            let likely = around.likely(part_of_speech, form);
            found.push((meaning, form, likely));
        }
    }
    // Only the likeliest meaning of each part of speech: what else a word may mean, its sentence seldom means.
    let mut seen: Vec<(PartOfSpeech, &str)> = Vec::new();
    found.retain(|(meaning, ..)| {
        let key = (meaning.part_of_speech, meaning.word);
        let first = !seen.contains(&key);
        seen.push(key);
        first
    });
    let best = found.iter().map(|(.., likely)| *likely).max().unwrap_or(Likely::No);
    found.retain(|(.., likely)| *likely == best && best != Likely::No);
    let parts: Vec<(PartOfSpeech, FormKind)> =
        found.iter().map(|(meaning, form, _)| (meaning.part_of_speech, *form)).collect();
    if let Some(part) = likeliest(word, &parts, around) {
        found.retain(|(meaning, ..)| meaning.part_of_speech == part);
    }
    found.into_iter().map(|(meaning, form, _)| (meaning, form)).collect()
}

/// Words that are more often what someone does than a thing, in stories for children.
const VERBS_FIRST: &str = "act answer ask attack beat bend bite blow break bump burn call change chase climb clap cough cover crash cry cut dance \
    dash dig dive draw dream drift drink drip drive drop echo escape fall fear fight finish flap flip float flow fly fold gasp giggle glow \
    go grin grip growl guess help hide hit hold hop hope howl hug hum hunt hurry jump keep kick kiss knock laugh lead leak lean leap lick lie \
    lift listen live look love march mind move nap nod offer open pack pass pat pay peek pick play poke pop pour press promise pull push race \
    reach repair reply rest ride ring roar roll rub run rush sail scream scare search shake share shine shoot shout show shut sigh skip \
    sleep slide slip smell smile snap sneeze sniff snore spill spin splash split spread squeak squeeze stand stare start stay step stir stop \
    stretch stroke swallow swap sweep swim swing talk tap taste tear think throw tip touch treat try turn twist type visit wait wake walk \
    wander wash watch wave welcome whisper whistle wipe wish wobble wonder work worry wrap yawn yell";

/// The part of speech that a word most often is in stories, of those that its neighbours leave possible.
fn likeliest(word: &str, parts: &[(PartOfSpeech, FormKind)], around: Around<'_>) -> Option<PartOfSpeech> {
    use PartOfSpeech::{Adjective, Noun, Verb};
    let has = |part| parts.iter().find(|(one, _)| *one == part).map(|(_, form)| *form);
    let base = |form| bases(word, has_headword).into_iter().find(|(_, one)| *one == form).map(|(base, _)| base);
    let is_verb_first = |form| base(form).is_some_and(|base| VERBS_FIRST.split(' ').any(|verb| verb == base));
    match (has(Noun), has(Verb), has(Adjective)) {
        // *Dimple puffed* and *bouncing over the waves* are what they do; *a bouncing ball* is what it is like.
        (_, Some(form), Some(FormKind::Base)) if form != FormKind::Base => {
            Some(if around.is_before_noun() { Adjective } else { Verb })
        }
        (_, Some(form), Some(_)) => Some(if is_verb_first(form) { Verb } else { Adjective }),
        (Some(_), Some(form), None) => Some(if is_verb_first(form) { Verb } else { Noun }),
        (Some(_), None, Some(_)) => Some(Adjective),
        _ => None,
    }
}

/// Words with so many uses that what stands for one of them seldom stands for the one in a sentence.
const MANY_USES: &str = "about along around before through up way call see hold shake turn fall get take go make find set keep start leave \
    look love miss cry lie lay give put let feel seem sound open free snap catch pass play point run draw drop hang work stick strike bring \
    break carry clear fair fine form fresh hard high light line mark mind move note order part place pull raise rest right round run save \
    sense sharp side sort space stand state step still stop strong thing think time tip touch try view wear well while wind end together \
    minus service station clue rooftop people being";

/// Adverbs that say how much, and stand before what they tell it of.
const OF_DEGREE: &str = "almost nearly quite rather pretty totally fully completely only";

/// Parts of the body: a hat goes on a head, not on a leg.
const OF_THE_BODY: &str = "ear arm knee head nose face tummy neck tail leg finger toe hand foot eye mouth chin hair wing paw back shoulder \
    elbow cheek beak claw tongue tooth thumb lap heel fur skin chest stomach belly lip ankle wrist hip";

/// Whether a folded word can be a noun, for one or more, and is no verb in the past.
pub(super) fn may_be_noun(word: &str) -> bool {
    let forms = bases(word, has_headword);
    let is_past = forms.iter().any(|(_, form)| *form == FormKind::Past);
    let noun = |(base, form): &(String, FormKind)| {
        matches!(form, FormKind::Base | FormKind::Plural)
            && table::find(base).any(|meaning| meaning.part_of_speech == PartOfSpeech::Noun)
    };
    !is_past && forms.iter().any(noun)
}

/// Whether a phrase of the table suits the place of a word. `other`: it is another thing of the kind, not the same.
pub(super) fn suits(meaning: Meaning, form: FormKind, phrase: &str, around: Around<'_>, other: bool) -> bool {
    let among = |list: &str| list.split(' ').any(|known| known == meaning.word);
    let long = phrase.contains(' ');
    if among(MANY_USES) {
        return false;
    }
    match meaning.part_of_speech {
        PartOfSpeech::Noun => around.frees_noun(may_be_noun, form == FormKind::Base) && !(other && among(OF_THE_BODY)),
        // *the washing basket* is not *the rinsing basket*.
        PartOfSpeech::Verb => {
            !(matches!(form, FormKind::Ing | FormKind::Past | FormKind::Participle) && around.is_before_noun())
        }
        PartOfSpeech::Adjective if other => around.frees_color(),
        PartOfSpeech::Adjective => !around.binds_adjective(),
        PartOfSpeech::Adverb => {
            let of_manner = meaning.word.ends_with("ly") && !phrase.ends_with("ly") && !among(OF_DEGREE);
            !(long && around.is_graded()) && (around.is_at_edge() || among(OF_DEGREE) || !long && !of_manner)
        }
        PartOfSpeech::Other => !around.is_graded(),
    }
}

/// A word of the table for one in British spelling: *color* for *colour*.
fn american(word: &str) -> std::borrow::Cow<'_, str> {
    if has_headword(word) {
        return word.into();
    }
    american_spellings(word).find(|other| has_headword(other)).map_or_else(|| word.into(), Into::into)
}

/// How a word may be spelled in America if it is in British spelling.
pub(super) fn american_spellings(word: &str) -> impl Iterator<Item = String> + '_ {
    let endings = [("our", "or"), ("re", "er"), ("ise", "ize"), ("yse", "yze"), ("grey", "gray")];
    let made = endings.into_iter().filter(|(british, _)| word.contains(british));
    let made = made.map(|(british, american)| word.replacen(british, american, 1));
    // *travell* is what is left of *travelled*; *fille* of *filled* is no such word.
    let single = word.strip_suffix('l').filter(|short| short.len() > 4 && short.ends_with('l')).map(str::to_owned);
    made.chain(single)
}
