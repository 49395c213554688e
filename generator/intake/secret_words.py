"""By which words does a key ask for a secret, and in which shapes does a text give one away?

The words are the trade's own (common practice, no source). Shapes ask for a word and what could be its secret side by side:
a number on its own is a zone, a serial or a year.
"""
import re

# The last word, or the last two, of a key whose value would be a secret.
ASKS = {"pin", "pins", "code", "codes", "passcode", "passcodes", "password", "passwords", "passwd", "pwd", "passphrase", "passphrases",
        "secret", "secrets", "keyword", "keywords", "codeword", "codewords", "keysafe", "lockbox"}
ASKS_TWO = {("pass", "code"), ("pass", "word"), ("pass", "phrase"), ("pass", "key"), ("key", "word"), ("key", "words"), ("code", "word"),
            ("code", "words"), ("safe", "word"), ("duress", "word"), ("cancel", "word"), ("abort", "word"), ("security", "word"),
            ("station", "word"), ("call", "word"), ("challenge", "word"), ("panic", "word"), ("key", "safe"), ("key", "box"),
            ("wifi", "key"), ("fi", "key"), ("wpa", "key"), ("network", "key"), ("api", "key"), ("private", "key"), ("encryption", "key")}
# Words behind them that leave the key asking for the secret itself: `pin number`, `new code`, `code for the cleaner`.
_TAIL = {"number", "numbers", "no", "nr", "value", "text", "is", "new", "old", "current", "default"}
_JOINS = {"for", "of", "to"}
# Codes that open nothing.
HARMLESS = {"post", "zip", "area", "date", "dialling", "dial", "bar", "qr", "country", "colour", "wiring", "fire", "building", "noise", "local",
            "municipal", "error", "fault", "event", "product", "order", "stock", "part", "currency", "language", "tax", "lot", "batch",
            "electrical", "signaling", "signalling", "national", "state", "city", "county", "safety", "model", "type", "dress", "source"}

_CODE = "|".join(("pin", "pins", "pin codes?", "pin numbers?", "codes?", "passcodes?", "combination", "key ?safe", "key ?box", "lock ?box"))
_BEFORE = "".join(rf"(?<!\b{word} )(?<!\b{word}-)" for word in sorted(HARMLESS))
# What stands before is looked at only where a code is named.
_NAMED = rf"\b(?=(?:{_CODE})s?\b){_BEFORE}(?:{_CODE})"
_WORDS = (r"(?:pass ?words?|pass ?phrases?|key ?words?|code ?words?|(?:safe|cancel|abort|duress|station|security|challenge|panic) word|"
          r"(?:wi-?fi|wpa|network|encryption) key)")
_DIGITS = r"[*#]?\d(?:[ -]?\d){2,7}#?(?![\w/]|[.,]\d| ?(?:mm|cm|m|kg|g|V|Ah|mAh|dB|Hz|MHz|s|min|h|years?|days?|%)\b)"
_SPELT = r"(?:(?:zero|oh|nought|one|two|three|four|five|six|seven|eight|nine)\b[ ,-]*){3,8}"
_IS = r"(?:(?:is|are|was|now|no|number|set to|for|to|of|the|your|our|his|her|their|alarm|panel|door|gate|unset|set|open|user|installer|master)\b\W{0,3}){0,4}"
_QUOTE = "[\"'“”‘’]"
# What a sentence says of a secret without giving it away.
_FACTS = (r"(?:held|kept|set|changed|not|never|no|none|known|asked|agreed|given|handed|chosen|written|stored|typed|needed|wanted|used|required|"
          r"at|with|to|by|in|on|from|the|a|an|still|yes|only|of|for|and|or|as|up|left)\b")
SHAPES = (
    re.compile(rf"{_NAMED}\b\W{{0,3}}{_IS}{_QUOTE}?(?:{_DIGITS}|{_SPELT})", re.I),
    # "the code of the back door is 4711": a few words may stand between the code and its digits.
    re.compile(rf"{_NAMED}s? (?:of|for|to|at|on)\b(?! practice)[^.;\d\n]{{0,40}}?(?:\bis\b|\bare\b|\bwas\b|[:=])\s*{_QUOTE}?\d{{4,8}}\b", re.I),
    re.compile(rf"(?<![\w.-])\d{{4,8}}{_QUOTE}?\W{{0,3}}(?:is|=|as|was)\W{{0,3}}(?:(?:the|her|his|their|our|my|a|new|old|alarm|door|gate|user|"
               rf"installer|master|default|panel)\s+)*(?:{_CODE})\b", re.I),
    re.compile(rf"\b(?:unset|disarm|set|arm|unlock|opens?)\b(?: (?:it|alarm|the alarm|the panel|the door|the gate))? (?:with|by typing) {_QUOTE}?\d{{4,8}}\b", re.I),
    re.compile(rf"\b{_WORDS}\s*(?:[:=]|\bis\b|\bare\b|\bwas\b)\s*{_QUOTE}?(?!{_FACTS})\w\S*", re.I),
    re.compile(rf"\b{_WORDS}\s+{_QUOTE}\w", re.I),
)
# Without one of these no key asks and no shape fits; a quick look first spares the slow ones.
_ANY = re.compile(r"pin|code|combination|safe|box|word|phrase|key|set|arm|lock|open|pass|pwd|secret", re.I)
# No message quotes a longer line, and no field takes a longer text.
LONGEST_LINE, LONGEST_SEARCHED = 2_000, 10_000
_KEY_IN_LINE = re.compile(r"""([\w][\w .-]{0,60}?|"[^"]{0,60}"|'[^']{0,60}') ?:(?=\s|$)""")


def words_of(key: str) -> list[str]:
    """The words of a key in small letters, however they are joined: `installerCode_2` gives installer, code."""
    parted = re.sub(r"(?<=[a-z])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])|(?<=[A-Za-z])(?=\d)|(?<=\d)(?=[A-Za-z])", " ", key)
    return [word for word in re.split(r"[\W_]+", parted.lower()) if word and not word.isdigit()]


def asks_for_secret(key: str) -> bool:
    """Whether what stands under a key of this name would be a secret. A key that ends in a fact about one does not ask."""
    words = words_of(key)
    for join in _JOINS:
        if join in words[1:]:
            words = words[:words.index(join, 1)]
    while words and words[-1] in _TAIL:
        words.pop()
    if tuple(words[-2:]) in ASKS_TWO:
        return True
    return bool(words) and words[-1] in ASKS and (len(words) < 2 or words[-2] not in HARMLESS)


def gives_secret(text: str) -> bool:
    """Whether a text has the shape of one that gives a secret away."""
    text = text[:LONGEST_SEARCHED]
    return bool(_ANY.search(text)) and any(shape.search(text) for shape in SHAPES)


def secret_lines(lines: list[str]) -> frozenset[int]:
    """The lines of a file, from 1, that no message may quote: a secret seems to stand there, in a value or a comment.

    What stands further in than such a key, on the lines below it, belongs to it. A line of absurd length is not searched
    and not quoted either.
    """
    found: set[int] = set()
    under = -1
    for number, line in enumerate(lines, 1):
        text = line.strip()
        inner = len(line) - len(line.lstrip(" "))
        if not text and under < 0:
            continue
        if len(text) > LONGEST_LINE or under >= 0 and (not text or inner > under or line[inner:inner + 1] in ("-", "]", "}")):
            found.add(number)
            continue
        under = -1
        if not _ANY.search(text):
            continue
        if ":" in text and any(asks_for_secret(key.strip("\"' ")) for key in _KEY_IN_LINE.findall(text)):
            found.add(number)
            under = inner
        elif gives_secret(text):
            found.add(number)
    return frozenset(found)
