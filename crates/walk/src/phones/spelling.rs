//! From spelling to sound, for words in no list: a small set of our own rules, the longest that fits first.

/// What is written, and what is said. `^` marks a rule for the start of a word, `$` for its end.
const RULES: &[(&str, &str)] = &[
    ("^kn", "n"),
    ("^wr", "r"),
    ("^gn", "n"),
    ("^ps", "s"),
    ("^x", "z"),
    ("^wh", "w"),
    ("^sch", "sk"),
    ("ought", "Ot"),
    ("aught", "Ot"),
    ("eigh", "E"),
    ("igh", "Y"),
    ("ough", "uf"),
    ("augh", "af"),
    ("wale$", "wEl"),
    ("tion", "Sun"),
    ("sion", "Zun"),
    ("ture$", "Cur"),
    ("cian", "Sun"),
    ("ious", "Ius"),
    ("ous$", "us"),
    ("sch", "sk"),
    ("tch", "C"),
    ("dge", "j"),
    ("eau", "o"),
    ("air", "er"),
    ("are$", "er"),
    ("ear", "Ir"),
    ("eer", "Ir"),
    ("ere$", "Ir"),
    ("ire", "Yur"),
    ("ore", "Or"),
    ("oor", "Or"),
    ("our", "Or"),
    ("oar", "Or"),
    ("ure", "Jur"),
    ("que$", "k"),
    ("ing$", "iN"),
    ("le$", "ul"),
    ("les$", "ulz"),
    ("ck", "k"),
    ("ch", "C"),
    ("sh", "S"),
    ("th", "T"),
    ("ph", "f"),
    ("gh", "g"),
    ("wh", "w"),
    ("ng$", "N"),
    ("nk", "Nk"),
    ("ngs$", "Nz"),
    ("qu", "kw"),
    ("mb$", "m"),
    ("ee", "I"),
    ("ea", "I"),
    ("ie$", "I"),
    ("ie", "I"),
    ("ei", "I"),
    ("oo", "x"),
    ("oa", "o"),
    ("oe$", "o"),
    ("ou", "W"),
    ("ow$", "o"),
    ("ow", "W"),
    ("oi", "y"),
    ("oy", "y"),
    ("ai", "E"),
    ("ay", "E"),
    ("au", "O"),
    ("aw", "O"),
    ("ew", "x"),
    ("ue$", "x"),
    ("ui", "x"),
    ("ey$", "I"),
    ("ar", "Ar"),
    ("er", "ur"),
    ("ir", "ur"),
    ("ur", "ur"),
    ("or", "Or"),
    ("all", "Ol"),
    ("ce", "s"),
    ("ci", "si"),
    ("cy", "sI"),
    ("ge$", "j"),
    ("gi", "ji"),
    ("y$", "I"),
    ("^y", "J"),
    ("a$", "u"),
    ("bb", "b"),
    ("cc", "k"),
    ("dd", "d"),
    ("ff", "f"),
    ("gg", "g"),
    ("ll", "l"),
    ("mm", "m"),
    ("nn", "n"),
    ("pp", "p"),
    ("rr", "r"),
    ("ss", "s"),
    ("tt", "t"),
    ("zz", "z"),
    ("ed$", "d"),
    ("a", "a"),
    ("b", "b"),
    ("c", "k"),
    ("d", "d"),
    ("e", "e"),
    ("f", "f"),
    ("g", "g"),
    ("h", "h"),
    ("i", "i"),
    ("j", "j"),
    ("k", "k"),
    ("l", "l"),
    ("m", "m"),
    ("n", "n"),
    ("o", "A"),
    ("p", "p"),
    ("q", "k"),
    ("r", "r"),
    ("s", "s"),
    ("t", "t"),
    ("u", "u"),
    ("v", "v"),
    ("w", "w"),
    ("x", "ks"),
    ("y", "i"),
    ("z", "z"),
];

/// A vowel before one consonant and a final `e` says its name.
fn long(vowel: u8) -> &'static str {
    match vowel {
        b'a' => "E",
        b'e' => "I",
        b'i' | b'y' => "Y",
        b'o' => "o",
        _ => "x",
    }
}

/// Returns how a word would sound by its spelling. What is not a letter of a to z is passed over.
pub(super) fn phones(word: &str) -> Vec<u8> {
    let word: String = word.chars().flat_map(char::to_lowercase).filter(char::is_ascii_lowercase).collect();
    let letters = word.as_bytes();
    let is_vowel = |at: usize| letters.get(at).is_some_and(|b| b"aeiouy".contains(b));
    let mut phones = Vec::new();
    let mut at = 0;
    while at < letters.len() {
        let silent_e = at + 3 == letters.len() && is_vowel(at) && !is_vowel(at + 1) && letters[at + 2] == b'e';
        let plural_e = at + 4 == letters.len() && is_vowel(at) && !is_vowel(at + 1) && word[at + 2..] == *"es";
        if (silent_e || plural_e) && (at == 0 || !is_vowel(at - 1)) && !b"rwx".contains(&letters[at + 1]) {
            phones.extend(long(letters[at]).bytes());
            at += 1;
            continue;
        }
        if at > 1 && letters[at] == b'e' && at + 1 == letters.len() && (1..at).any(is_vowel) {
            break;
        }
        let (taken, said) = rule(&word[at..], at == 0);
        phones.extend(said.bytes());
        at += taken;
    }
    phones
}

fn rule(rest: &str, at_start: bool) -> (usize, &'static str) {
    let fits = RULES.iter().filter_map(|(written, said)| {
        let bare = written.trim_start_matches('^').trim_end_matches('$');
        let start = !written.starts_with('^') || at_start;
        let end = !written.ends_with('$') || rest == bare;
        (start && end && rest.starts_with(bare)).then_some((bare.len(), *said))
    });
    fits.max_by_key(|(length, _)| *length).unwrap_or((1, ""))
}
