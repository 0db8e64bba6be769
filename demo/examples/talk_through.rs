//! Makes the invented talk-through of Marram and her reference blows: `cargo run -p demo --example talk_through`.
//!
//! The voice is a synthesiser's (espeak-ng, which must be on the path), the blows are arithmetic (`rehearsal`: a hammer after
//! Hertz, planks as damped beams), the words are ours. Nothing of it was recorded on a boat. The word times are those at which
//! the phrases were laid; some words are misheard on purpose, as programs that write down speech mishear them.

use rehearsal::{Dice, Hammer, Mechanism, Member};
use std::error::Error;
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;

/// What is said and what is written down of it; or blows, as many as named.
enum Part {
    Said(&'static str, &'static str),
    Blows(Mechanism, usize),
}

const RATE: usize = 48_000;
/// One sample of so many is kept: 16 000 a second.
const KEPT: usize = 3;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("marram/talk");
    let mut dice = Dice::new(7, "talk-through");
    let hammer = Hammer::draw(&mut dice);
    let plank = Member::draw(&mut dice, false, 1.0);
    let talk = [
        Part::Said(
            "Clinker strake five, starboard side, at frame twelve.",
            "Clinker strake five, starboard side, at frame twelve.",
        ),
        Part::Blows(Mechanism::Solid, 3),
        Part::Said("Rings well.", "Rings well."),
        Part::Said(
            "Clinker strake nine, port side, between frames fourteen and sixteen.",
            "Clinker strake nine, port side, between frames fourteen and sixteen.",
        ),
        Part::Blows(Mechanism::Decay, 3),
        Part::Said("Dull here.", "Dull here."),
        Part::Said(
            "Starboard garboard, knife goes in three eighths by frame nine.",
            "Starboard gar board, knife goes in three eighths by frame nine.",
        ),
        Part::Said("Mind the bucket behind you.", "Mind the bucket behind you."),
        Part::Said(
            "The stem has a moisture reading of twenty two percent.",
            "The stem has a moisture reading of twenty two percent.",
        ),
        Part::Said("Cannot see the apron behind the bulkhead.", "Cannot see the apron behind the bulkhead."),
    ];
    let mut sound = vec![0.0; RATE / 2];
    let mut words =
        "WEBVTT\n\nNOTE Invented: a synthesiser's voice and calculated blows; nothing was recorded on a boat.\n"
            .to_owned();
    for part in talk {
        match part {
            Part::Said(said, written) => {
                let from = sound.len() as f64 / RATE as f64;
                sound.extend(voice(said)?);
                let to = sound.len() as f64 / RATE as f64;
                write!(words, "\n00:{from:06.3} --> 00:{to:06.3}\n{written}\n")?;
                sound.extend(vec![0.0; RATE * 2 / 5]);
            }
            Part::Blows(mechanism, count) => strike(&mut sound, &mut dice, &hammer, &plank, mechanism, count),
        }
        sound.extend(vec![0.0; RATE * 2 / 5]);
    }
    let mut reference = vec![0.0; RATE / 2];
    strike(&mut reference, &mut dice, &hammer, &plank, Mechanism::Solid, 8);
    std::fs::write(folder.join("talk-through.vtt"), words)?;
    std::fs::write(folder.join("talk-through.wav"), wave(&sound, &mut dice))?;
    std::fs::write(folder.join("reference-blows.wav"), wave(&reference, &mut dice))?;
    Ok(())
}

/// Returns what the synthesiser makes of a phrase, at the rate worked in.
fn voice(phrase: &str) -> Result<Vec<f64>, Box<dyn Error>> {
    let file = std::env::temp_dir().join("ribband-phrase.wav");
    let done = Command::new("espeak-ng").args(["-v", "en-gb", "-s", "165", "-w"]).arg(&file).arg(phrase).status()?;
    if !done.success() {
        return Err("espeak-ng would not speak".into());
    }
    let mut out = Vec::new();
    let bytes = std::fs::read(&file)?;
    recording::read_bytes(bytes, recording::Channel::Mix, &mut |part| {
        out.extend(part.iter().map(|s| 0.35 * f64::from(*s)))
    })?;
    Ok(out)
}

fn strike(sound: &mut Vec<f64>, dice: &mut Dice, hammer: &Hammer, plank: &Member, mechanism: Mechanism, count: usize) {
    let spot = plank.jittered(dice, 0.04).struck(dice, mechanism, RATE as f64);
    for _ in 0..count {
        let blow = spot.strike(dice, hammer, RATE as f64).samples;
        let most = blow.iter().fold(1e-12_f64, |m, s| m.max(s.abs()));
        let from = sound.len();
        sound.extend(vec![0.0; RATE * 55 / 100]);
        for (into, s) in sound[from..].iter_mut().zip(&blow) {
            *into += 0.6 * s / most;
        }
    }
}

/// Returns 16-bit PCM at 16 kHz with a little noise under it; before samples are left out what lies above 7 kHz is taken away.
fn wave(sound: &[f64], dice: &mut Dice) -> Vec<u8> {
    const HALF: isize = 48;
    let cut = 7000.0 / RATE as f64;
    let taps: Vec<f64> = (-HALF..=HALF)
        .map(|n| {
            let t = n as f64;
            let sinc =
                if n == 0 { 2.0 * cut } else { (std::f64::consts::TAU * cut * t).sin() / (std::f64::consts::PI * t) };
            sinc * (0.5 + 0.5 * (std::f64::consts::PI * t / (HALF as f64 + 1.0)).cos())
        })
        .collect();
    let kept: Vec<i16> = (0..sound.len() / KEPT)
        .map(|n| {
            let at = (n * KEPT) as isize - HALF;
            let sum: f64 = taps
                .iter()
                .enumerate()
                .map(|(k, tap)| {
                    usize::try_from(at + k as isize).ok().and_then(|i| sound.get(i)).map_or(0.0, |s| s * tap)
                })
                .sum();
            let noisy = sum + 0.0008 * (dice.unit() - 0.5);
            (noisy * 32767.0).round().clamp(-32768.0, 32767.0) as i16
        })
        .collect();
    let (rate, bytes) = ((RATE / KEPT) as u32, (kept.len() * 2) as u32);
    let mut out = b"RIFF".to_vec();
    out.extend((36 + bytes).to_le_bytes());
    out.extend(b"WAVEfmt \x10\0\0\0\x01\0\x01\0");
    out.extend(rate.to_le_bytes());
    out.extend((rate * 2).to_le_bytes());
    out.extend(b"\x02\0\x10\0data");
    out.extend(bytes.to_le_bytes());
    out.extend(kept.iter().flat_map(|s| s.to_le_bytes()));
    out
}
