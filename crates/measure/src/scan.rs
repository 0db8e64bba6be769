//! Going through a text character by character, keeping count of where one is.

use crate::Fault;

/// A number as it stood in the text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Number {
    pub value: f64,
    /// Index of its first character, counted from nought.
    pub start: usize,
    /// Whether it is a plain whole number, with neither decimals nor a fraction.
    pub whole: bool,
}

/// No quantity in a boat needs a greater figure, and below it sums and products stay finite.
const GREATEST: f64 = 1e12;

/// A text being read. Typographic primes, quotes, dashes and slashes have been made plain, one character for one.
pub(crate) struct Scan {
    chars: Vec<char>,
    at: usize,
}

impl Scan {
    pub fn new(text: &str) -> Self {
        let mut scan = Self { chars: text.chars().map(plain).collect(), at: 0 };
        scan.skip_spaces();
        scan
    }

    /// Returns the index of the next character, counted from nought.
    pub fn at(&self) -> usize {
        self.at
    }

    pub fn go_back_to(&mut self, at: usize) {
        self.at = at;
    }

    pub fn peek(&self) -> Option<char> {
        self.chars.get(self.at).copied()
    }

    fn peek_after(&self, n: usize) -> Option<char> {
        self.chars.get(self.at + n).copied()
    }

    /// Takes the next character if it is this one.
    pub fn take(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.at += 1;
        }
        found
    }

    pub fn skip_spaces(&mut self) {
        while self.peek() == Some(' ') {
            self.at += 1;
        }
    }

    pub fn at_end(&self) -> bool {
        self.at >= self.chars.len()
    }

    /// Returns a fault at the next character.
    pub fn fault(&self, why: impl Into<String>) -> Fault {
        Fault::new(self.at + 1, why)
    }

    /// Refuses anything left over.
    pub fn finish(&mut self) -> Result<(), Fault> {
        self.skip_spaces();
        match self.peek() {
            None => Ok(()),
            Some(c) => Err(self.fault(format!("{} is not expected here", named(c)))),
        }
    }

    /// Takes a leading plus or minus; true for minus.
    pub fn sign(&mut self) -> bool {
        let minus = self.take('-');
        if !minus {
            self.take('+');
        }
        self.skip_spaces();
        minus
    }

    /// Takes a run of digits and returns its value; none when there is no digit.
    pub fn digits(&mut self) -> Option<f64> {
        let start = self.at;
        let mut value = 0.0;
        while let Some(digit) = self.peek().and_then(|c| c.to_digit(10)) {
            value = value * 10.0 + f64::from(digit);
            self.at += 1;
        }
        (self.at > start).then_some(value)
    }

    /// Reads a number: `32`, `1.25`, `1,2`, `.5`, `5/8`, `4 1/2`, `4-1/2`, `4½`.
    pub fn number(&mut self) -> Result<Number, Fault> {
        let start = self.at;
        if let Some(value) = self.vulgar() {
            return Ok(Number { value, start, whole: false });
        }
        if self.digits().is_none() && !(matches!(self.peek(), Some('.' | ',')) && self.digit_after(1)) {
            return Err(match self.peek() {
                None if start == 0 => self.fault("nothing is written"),
                None => self.fault("a number is missing"),
                Some(c) => self.fault(format!("a number is expected, not {}", named(c))),
            });
        }
        if matches!(self.peek(), Some('.' | ',')) {
            return self.decimals(start);
        }
        let whole = self.parsed(start, self.at)?;
        if self.peek() == Some('/') {
            let value = self.below(whole, start)?;
            return Ok(Number { value, start, whole: false });
        }
        match self.fraction_after_whole(whole)? {
            Some(part) => Ok(Number { value: whole + part, start, whole: false }),
            None => Ok(Number { value: whole, start, whole: true }),
        }
    }

    /// Reads a word: letters, with any full stops after them dropped, in small letters.
    pub fn word(&mut self) -> String {
        let mut word = String::new();
        while let Some(c) = self.peek().filter(|c| c.is_alphabetic()) {
            word.extend(c.to_lowercase());
            self.at += 1;
        }
        if !word.is_empty() {
            self.take('.');
        }
        word
    }

    /// Takes the mark for inches, `"` or two single primes.
    pub fn inch_mark(&mut self) -> bool {
        if self.peek() == Some('\'') && self.peek_after(1) == Some('\'') {
            self.at += 2;
            return true;
        }
        self.take('"')
    }

    fn digit_after(&self, n: usize) -> bool {
        self.peek_after(n).is_some_and(|c| c.is_ascii_digit())
    }

    fn decimals(&mut self, start: usize) -> Result<Number, Fault> {
        let point = self.at;
        let comma = self.take(',');
        if !comma {
            self.take('.');
        }
        if self.digits().is_none() {
            return Err(self.fault("figures are expected after the decimal point or comma"));
        }
        let after = self.at - point - 1;
        let before = point - start;
        // Half the world writes twelve hundred as 1,200 and the other half reads that as one and a fifth.
        if comma && after == 3 && (1..=3).contains(&before) && self.chars[start] != '0' {
            let why = "a comma before three figures can be read as thousands or as decimals; write it with a point, \
                       or without the comma";
            return Err(Fault::new(point + 1, why));
        }
        if matches!(self.peek(), Some('.' | ',')) {
            return Err(self.fault("one decimal point or comma is enough"));
        }
        Ok(Number { value: self.parsed(start, self.at)?, start, whole: false })
    }

    /// Lets the standard library read the figures, so that decimals are rounded once only.
    fn parsed(&self, start: usize, end: usize) -> Result<f64, Fault> {
        let figures: String = self.chars[start..end].iter().map(|c| if *c == ',' { '.' } else { *c }).collect();
        let value: f64 = figures.parse().map_err(|_| Fault::new(start + 1, "this is not a number"))?;
        if value > GREATEST { Err(Fault::new(start + 1, "this number is too great")) } else { Ok(value) }
    }

    /// Reads the `1/2` of `4 1/2` or `4-1/2`, or the `½` of `4½`, if it is there.
    fn fraction_after_whole(&mut self, whole: f64) -> Result<Option<f64>, Fault> {
        let here = self.at;
        if !self.take('-') {
            self.skip_spaces();
        } else if whole == 0.0 {
            // 0-1/4 is not a way to write a quarter: it is the range from nought to a quarter.
            self.at = here;
            return Ok(None);
        }
        if let Some(part) = self.vulgar() {
            return Ok(Some(part));
        }
        let top_at = self.at;
        if here != top_at
            && let Some(top) = self.digits()
            && self.peek() == Some('/')
        {
            let part = self.below(top, top_at)?;
            if part >= 1.0 {
                return Err(Fault::new(top_at + 1, "a fraction after a whole number must be less than one"));
            }
            return Ok(Some(part));
        }
        self.at = here;
        Ok(None)
    }

    /// Reads `/8` after the figure above the line.
    fn below(&mut self, top: f64, top_at: usize) -> Result<f64, Fault> {
        self.take('/');
        let below_at = self.at;
        let Some(below) = self.digits() else {
            return Err(self.fault("a figure is expected below the line of the fraction"));
        };
        if below == 0.0 {
            return Err(Fault::new(below_at + 1, "a fraction cannot have nought below the line"));
        }
        if below > 1000.0 {
            return Err(Fault::new(below_at + 1, "a fraction finer than a thousandth is not accepted"));
        }
        if top > 1e6 {
            return Err(Fault::new(top_at + 1, "this fraction is too great"));
        }
        Ok(top / below)
    }

    fn vulgar(&mut self) -> Option<f64> {
        let found = self.peek()?;
        let value = VULGAR.iter().find(|(c, _, _)| *c == found).map(|(_, top, below)| top / below)?;
        self.at += 1;
        Some(value)
    }
}

/// Fractions that are one character.
const VULGAR: [(char, f64, f64); 18] = [
    ('¼', 1.0, 4.0),
    ('½', 1.0, 2.0),
    ('¾', 3.0, 4.0),
    ('⅐', 1.0, 7.0),
    ('⅑', 1.0, 9.0),
    ('⅒', 1.0, 10.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
];

/// Tells whether a character can stand in a number.
pub(crate) fn is_of_number(c: char) -> bool {
    let c = plain(c);
    c.is_ascii_digit() || " .,+-/".contains(c) || VULGAR.iter().any(|(v, _, _)| *v == c)
}

fn plain(c: char) -> char {
    match c {
        '′' | '’' | '‘' | '´' | 'ʹ' | '‵' => '\'',
        '″' | '”' | '“' | '„' | 'ʺ' => '"',
        '−' | '–' | '‐' | '‑' => '-',
        '⁄' | '∕' => '/',
        '×' | '✕' => 'x',
        c if c.is_whitespace() => ' ',
        c => c,
    }
}

/// Returns how a stray character is named to a person.
pub(crate) fn named(c: char) -> String {
    if c.is_control() { "a control character".to_owned() } else { format!("‘{c}’") }
}
