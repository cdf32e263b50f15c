"""Compares our southern British pronunciations with two independent lexicons: .ci/accents says which. Arguments: PRONOUNCE FOLDER.

What British dictionaries themselves print in more than one way counts as the same:
- the weak vowels ə, ɪ and i for one another, and weak ʊ and uː; iə and iɪ as ɪə, uːə and ɔː as ʊə (happy, cure, poor);
- a weak ə missing before l, m, n or r (little, history), and vowels before l, m, n that only length tells apart (real, fuel);
- tj as tʃ, dj as dʒ, t and d before those, and the j dropped after s, z, ʃ, ʒ (tune, suit); n as ŋ before k and ɡ; an r at the end;
- the e of an unstressed prefix as iː, ɪ, ɛ or ə (prepare, enjoy);
- an unstressed short vowel reduced to ə or not (obtain, product, accurate), unstressed iː as ɪ (geology), and jə as iə (familiar).
Everything else must be the same. A vowel is weak if neither source marks it as stressed."""

import hashlib
import json
import re
import subprocess
import sys
from collections import Counter, defaultdict
from pathlib import Path

COUNT, LEAST, WORDS = 16_000, 94.5, Path("crates/lexicon-compiler/data/commonness.tsv")
VOWELS = "ɜː iː uː ɑː ɔː eɪ aɪ ɔɪ əʊ aʊ ɪə ɛə ʊə æ ɛ ɪ ɒ ʌ ʊ ə i".split()
# Longest first: a sign that begins another comes after it.
SOUND = re.compile("|".join(["[ˈˌ]", "tʃ", "dʒ", *VOWELS, "[pbtdkɡmnŋfvθðszʃʒlrwjh]"]))
WEAK, PREFIX_VOWELS = {"ə", "ɪ", "i"}, {"ə", "ɪ", "i", "iː", "ɛ"}
# What ə may stand for where nothing is stressed.
REDUCED = {"ɒ", "æ", "ʌ", "ʊ", "ɛ"}
# The signs of the sources as ours, in order: single letters of a source come after the pairs that hold them.
SIGNS = {
    "espeak": [("eə", "ɛə"), ("n̩", "ən"), ("l̩", "əl"), ("ɐ", "ə"), ("ɾ", "t"), ("ʔ", "t"), ("oː", "ɔː")],
    "misaki": [("ɛː", "ɛə"), ("əː", "ɜː"), ("A", "eɪ"), ("I", "aɪ"), ("W", "aʊ"), ("Y", "ɔɪ"), ("Q", "əʊ"), ("ʤ", "dʒ"), ("ʧ", "tʃ"), ("ᵊ", "ə")],
}
# A word that begins with a prefix in e, as far as spelling tells; only its first vowel is tolerated.
PREFIX = re.compile("be|de|pre|re|se|e[^aeiou]")
# Two sounds that are also written as one.
ONE = {("t", "j"): "tʃ", ("t", "ʃ"): "tʃ", ("t", "tʃ"): "tʃ", ("d", "j"): "dʒ", ("d", "ʒ"): "dʒ", ("d", "dʒ"): "dʒ"}
ONE |= {("ʊ", "ə"): "ʊə", ("uː", "ə"): "ʊə", ("i", "ɪ"): "ɪə", ("i", "ə"): "ɪə", ("ɪ", "ə"): "ɪə", ("iː", "ə"): "ɪə"}
ONE |= {("j", "ə"): "ɪə"}
ONE |= {(before, "j"): before for before in ("s", "z", "ʃ", "ʒ", "tʃ", "dʒ")}


def commonest():
    """The commonest words; within a class in an order that is fixed but not the alphabet's, as the last class is cut."""
    ranked = []
    for line in WORDS.read_text(encoding="utf-8").splitlines():
        word, _, size = line.partition("\t")
        if size in ("10", "20", "35") and re.fullmatch("[a-z]+", word):
            ranked.append((size, hashlib.sha256(word.encode()).digest(), word))
    return [word for _, _, word in sorted(ranked)][:COUNT]


def run(command, words):
    """What a command prints when it reads one word a line."""
    return subprocess.run(command, input="\n".join(words) + "\n", stdout=subprocess.PIPE, text=True, check=True).stdout.splitlines()


def ours(pronounce, words):
    """Our readings of each word; several are allowed."""
    readings = defaultdict(list)
    for line in run([pronounce, "southern-british"], words):
        word, ipa, _ = line.split("\t")
        readings[word] += [ipa] * (ipa != "?")
    return readings


def espeak(words):
    """espeak-ng reads its input line by line, so that no word is joined to the next; a count that differs would shift them all."""
    lines = run(["espeak-ng", "-v", "en-gb-x-rp", "--ipa", "-q"], words)
    if len(lines) != len(words):
        sys.exit(f"espeak-ng printed {len(lines)} lines for {len(words)} words")
    return dict(zip(words, lines))


def misaki(folder, words):
    """The readings of misaki; gold is the checked list. A word that has several by part of speech has a DEFAULT."""
    gold, silver = (json.loads((Path(folder) / f"gb_{name}.json").read_text(encoding="utf-8")) for name in ("gold", "silver"))
    found = {word: gold.get(word) or silver.get(word) or gold.get(word.capitalize()) for word in words}
    plain = {word: entry.get("DEFAULT") if isinstance(entry, dict) else entry for word, entry in found.items()}
    return {word: ipa for word, ipa in plain.items() if ipa}


def sounds(source, ipa):
    """A reading as pairs of a sound and whether it is weak: unstressed, in a word of more than one vowel."""
    for theirs, own in SIGNS.get(source, []) + [("ɹ", "r"), ("g", "ɡ")]:
        ipa = ipa.replace(theirs, own)
    ipa = re.sub("a(?![ɪʊ])", "æ", re.sub("e(?!ɪ)", "ɛ", ipa))
    ipa = re.sub("ɔ(?![ɪː])", "ɒ", re.sub("ɑ(?!ː)", "ɑː", re.sub("u(?!ː)", "uː", ipa)))
    ipa = re.sub("ɪ([ˈˌ]?)əʊ", r"i\1əʊ", ipa)  # radio: i and əʊ, not ɪə and ʊ
    pairs, stressed = [], False
    for sign in SOUND.findall(ipa):
        if sign not in "ˈˌ":
            pairs.append((sign, sign in VOWELS and not stressed))
        # A mark stands before the consonants of its syllable and holds until the vowel.
        stressed = sign in "ˈˌ" or (stressed and sign not in VOWELS)
    many = sum(sign in VOWELS for sign, _ in pairs) > 1
    return merged([(sign, weak and many) for sign, weak in pairs])


def merged(pairs):
    """Sounds that dictionaries write as one or as two become one; an r at the end is only heard before a next word."""
    out = []
    for sign, weak in pairs:
        if out and (out[-1][0], sign) in ONE:
            before, weak = out.pop()
            sign = ONE[before, sign]
        out.append((sign, weak))
    return out[:-1] if out and out[-1][0] == "r" else out


def same(one, other, following, prefix):
    """Whether two sounds count as the same before the sound that follows."""
    pair, weak = {one[0], other[0]}, one[1] and other[1]
    return (
        len(pair) == 1
        or (weak and (pair <= WEAK | {"iː"} or pair == {"ʊ", "uː"} or (prefix and pair <= PREFIX_VOWELS)))
        or (weak and "ə" in pair and pair - {"ə"} <= REDUCED)
        or pair == {"ʊə", "ɔː"}
        or (pair == {"n", "ŋ"} and following in ("k", "ɡ"))
        or (following in ("l", "m", "n") and (pair == {"ɪə", "iː"} or pair == {"ʊə", "uː"}))
    )


def omission(pairs, i):
    """What it costs to leave a sound out: nothing for a weak ə before l, m, n or r."""
    return 0 if pairs[i] == ("ə", True) and pairs[i + 1:] and pairs[i + 1][0] in "lmnr" else 11


def steps(own, theirs, i, j, prefix):
    """The ways on in an alignment: the cost, the two sounds, and where it leads. A vowel is rarely set against a consonant."""
    if i < len(own) and j < len(theirs):
        a, b = own[i][0], theirs[j][0]
        first = not any(sign in VOWELS for sign, _ in own[:i])
        alike = same(own[i], theirs[j], own[i + 1][0] if own[i + 1:] else "", prefix and first)
        yield 0 if alike else 10 if (a in VOWELS) == (b in VOWELS) else 25, f"{a}→{b}", i + 1, j + 1
    if i < len(own):
        yield omission(own, i), f"{own[i][0]}→∅", i + 1, j
    if j < len(theirs):
        yield omission(theirs, j), f"∅→{theirs[j][0]}", i, j + 1


def difference(prefix, own, theirs):
    """The cheapest alignment of two readings: its cost, and the first pair that differs. Cost 0 is agreement."""
    best = {(len(own), len(theirs)): (0, "")}
    for i in range(len(own), -1, -1):
        for j in range(len(theirs), -1, -1):
            ways = [(cost + best[n, m][0], pair if cost else best[n, m][1]) for cost, pair, n, m in steps(own, theirs, i, j, prefix)]
            best[i, j] = min(ways, key=lambda way: way[0], default=(0, ""))
    return best[0, 0]


def main():
    pronounce, folder = sys.argv[1:]
    words = commonest()
    readings = ours(pronounce, words)
    sources = {"espeak": espeak(words), "misaki": misaki(folder, words)}
    known, agree, pairs = Counter(), Counter(), defaultdict(list)
    for word in words:
        own = [sounds("ours", ipa) for ipa in readings[word]] or [[]]
        heard = {name: sounds(name, ipas[word]) for name, ipas in sources.items() if word in ipas}
        against = {name: min(difference(PREFIX.match(word), reading, theirs) for reading in own) for name, theirs in heard.items()}
        right = {name: cost == 0 for name, (cost, _) in against.items()}
        verdicts = right | {"either": any(right.values())} | ({"both": all(right.values())} if len(right) == 2 else {})
        known.update(verdicts.keys())
        agree.update(name for name, same_there in verdicts.items() if same_there)
        if not verdicts["either"]:
            pairs[list(against.values())[-1][1]].append(word)  # misaki's where it has the word: espeak guesses
    print(f"{len(words)} words compared")
    for name in ("espeak", "misaki", "either", "both"):
        print(f"agree with {name:6} {agree[name]:6} of {known[name]:6}  {100 * agree[name] / known[name]:.2f} %")
    print("the commonest differences, ours → theirs:")
    for pair, found in sorted(pairs.items(), key=lambda item: -len(item[1]))[:15]:
        print(f"  {pair:7} {len(found):4}  {', '.join(found[:3])}")
    sys.exit(any(100 * agree[name] / known[name] < LEAST for name in sources))


if __name__ == "__main__":
    main()
