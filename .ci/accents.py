"""Compares southern British pronunciations with espeak-ng (voice en-gb-x-rp) and the British lexicon of the package misaki.

Of the 16,000 commonest words, at least 95 % must agree with one of the two. What dictionaries themselves print in several ways is
taken as the same (see `skeleton`): weak vowels, a schwa before l, m, n or r, tj and ch, the vowel of poor and door, the weak e of a
prefix. espeak-ng guesses what it does not know, so it says something of every word; misaki lacks some.
"""

import hashlib
import json
import re
import subprocess
import sys
import zipfile
from collections import Counter, defaultdict

COUNT = 16_000
LEAST = 95.0
WORDS = "crates/lexicon-compiler/data/commonness.tsv"

# The signs of each source, as ours. misaki writes a diphthong as a capital letter.
OURS = {"ɡ": "g"}
ESPEAK = {"eə": "ɛə", "ɐ": "ə", "oː": "ɔː", "n̩": "ən", "l̩": "əl", "ɹ": "r", "ɡ": "g", "ɾ": "t", "ʔ": "t"}
MISAKI = {"ɛː": "ɛə", "əː": "ɜː", "A": "eɪ", "I": "aɪ", "W": "aʊ", "Y": "ɔɪ", "Q": "əʊ", "ʤ": "dʒ", "ʧ": "tʃ", "ᵊ": "ə", "ɹ": "r", "ɡ": "g"}

VOWELS = "eɪ aɪ ɔɪ əʊ aʊ ɪə ɛə ʊə ɜː iː uː ɑː ɔː æ ɛ ɪ ɒ ʌ ʊ ə i".split()
SYMBOLS = re.compile("|".join(["tʃ", "dʒ", *VOWELS, "."]))
PREFIX = re.compile("^(be|de|en|em|ex|e|pre|pro|re|ab|ac|ad|con|com|ob|un|sub)")


def commonest():
    """The commonest words: by class, and within a class in an order that is not that of the alphabet."""
    classes = defaultdict(list)
    for line in open(WORDS, encoding="utf-8"):
        word, _, size = line.rstrip("\n").partition("\t")
        if not line.startswith("#") and word.isalpha() and word.islower():
            classes[int(size)].append(word)
    for words in classes.values():
        words.sort(key=lambda word: hashlib.md5(word.encode()).digest())
    return [word for size in sorted(classes) for word in classes[size]][:COUNT]


def ours(pronounce, words):
    """Our readings by word."""
    out = subprocess.run([pronounce, "southern-british"], input="\n".join(words), capture_output=True, text=True, check=True).stdout
    readings = defaultdict(list)
    for line in out.splitlines():
        word, ipa, _ = line.split("\t")
        readings[word].append(ipa)
    return readings


def espeak(words):
    """espeak-ng's reading of each word. A full stop keeps words apart, and the lines are counted."""
    command = ["espeak-ng", "-v", "en-gb-x-rp", "--ipa", "-q"]
    text = "".join(f"{word}.\n\n" for word in words)
    out = subprocess.run(command, input=text, capture_output=True, text=True, check=True).stdout.split("\n")
    lines = [line.strip() for line in out if line.strip()]
    if len(lines) != len(words):
        raise SystemExit(f"espeak-ng read {len(lines)} words of {len(words)}")
    return dict(zip(words, lines))


def misaki(wheel, words):
    """misaki's reading of each word that it has."""
    lexicon = {}
    with zipfile.ZipFile(wheel) as package:
        for name in ("gb_silver", "gb_gold"):
            lexicon |= json.loads(package.read(f"misaki/data/{name}.json"))
    found = {word: lexicon.get(word) or lexicon.get(word.capitalize()) for word in words}
    plain = {word: ipa.get("DEFAULT") if isinstance(ipa, dict) else ipa for word, ipa in found.items()}
    return {word: ipa for word, ipa in plain.items() if ipa}


def symbols(ipa, signs):
    """A reading as a list of sounds, without stress."""
    for theirs, own in signs.items():
        ipa = ipa.replace(theirs, own)
    ipa = re.sub("[ˈˌ .]", "", ipa)
    ipa = re.sub("a(?![ɪʊ])", "æ", re.sub("e(?!ɪ)", "ɛ", ipa))
    ipa = re.sub("ɔ(?![ɪː])", "ɒ", re.sub("ɑ(?!ː)", "ɑː", re.sub("u(?!ː)", "uː", ipa)))
    return SYMBOLS.findall(ipa)


def skeleton(word, sounds):
    """What must agree: everything but what dictionaries print in several ways."""
    long = sum(sound in VOWELS for sound in sounds) > 1
    text = " " + " ".join(sounds) + " "
    same = [
        (" ʊə ", " ɔː "), (" uː ə ", " ɔː "), (" iː ə ", " ɪə "), (" i ə ", " ɪə "), (" ɪ ə ", " ɪə "),
        (" t j ", " tʃ "), (" d j ", " dʒ "), (" s j ", " s "), (" z j ", " z "), (" tʃ j ", " tʃ "), (" dʒ j ", " dʒ "),
        (" ʃ j ", " ʃ "), (" t ʃ ", " tʃ "), (" d dʒ ", " dʒ "), (" n k ", " ŋ k "), (" n g ", " ŋ g "), (" l j ", " l "), (" n j ", " n "),
    ]
    for one, other in same:
        text = text.replace(one, other)
    if long:
        # Weak vowels: any of these may be one.
        text = re.sub(" (ɪ|i|ʊ|uː|ɪə)(?= )", " ə", text)
        prefix = PREFIX.match(word)
        if prefix:
            text = re.sub(" (iː|ɛ|ə|æ|ɒ|əʊ|ʌ)(?= )", " ə", text, count=1)
        text = re.sub("( ə)+(?= [lmnr] )", "", text)
        text = re.sub(" ə( ə)+ ", " ə ", text)
    text = re.sub(" r $", " ", text)
    return text.strip()


def differing(one, other):
    """The first sounds in which two skeletons differ."""
    pairs = zip(one.split() + ["∅"], other.split() + ["∅"])
    return next((f"{a} → {b}" for a, b in pairs if a != b), "")


def main():
    pronounce, wheel = sys.argv[1:]
    words = commonest()
    readings = ours(pronounce, words)
    sources = {"espeak-ng": (espeak(words), ESPEAK), "misaki": (misaki(wheel, words), MISAKI)}
    agree = Counter()
    known = Counter()
    pairs = defaultdict(list)
    for word in words:
        own = {skeleton(word, symbols(ipa, OURS)) for ipa in readings[word]}
        theirs = {name: skeleton(word, symbols(ipas[word], signs)) for name, (ipas, signs) in sources.items() if word in ipas}
        for name, ipa in theirs.items():
            known[name] += 1
            agree[name] += ipa in own
        if own & set(theirs.values()):
            agree["either"] += 1
        elif len(set(theirs.values())) == 1:
            # Both say the same against us.
            pairs[differing(min(own), next(iter(theirs.values())))].append(word)
    for name in sources:
        print(f"{agree[name]} of {known[name]} words agree with {name}: {100 * agree[name] / known[name]:.2f} %")
    percent = 100 * agree["either"] / len(words)
    print(f"{agree['either']} of {len(words)} words agree with one of them: {percent:.2f} %")
    print("where both differ from us:")
    for pair, found in sorted(pairs.items(), key=lambda item: -len(item[1]))[:15]:
        print(f"  {pair:10} {len(found):4}  {', '.join(found[:3])}")
    sys.exit(percent < LEAST)


if __name__ == "__main__":
    main()
