//! A walk round an invented boat: what was said, what was struck, what the microphone took.

use crate::{Dice, Filter, Hammer, Mechanism, Member, Noise, Voice, place::Place, yard::yard};

/// What kind of walk to invent.
#[derive(Clone, Debug)]
pub struct Setting {
    /// Seed of all draws.
    pub seed: u64,
    /// Length, in seconds.
    pub seconds: f64,
    /// Samples per second.
    pub rate_hz: f64,
    /// The surroundings.
    pub noise: Noise,
    /// Who talks.
    pub voice: Voice,
    /// Whether blows are struck; without, only talk and yard are heard.
    pub blows: bool,
    /// Whether the microphone's own level control pumps.
    pub level_control: bool,
}

impl Default for Setting {
    fn default() -> Setting {
        Setting {
            seed: 1,
            seconds: 180.0,
            rate_hz: 44_100.0,
            noise: Noise::Light,
            voice: Voice::SpeechLike,
            blows: true,
            level_control: false,
        }
    }
}

/// One true blow.
#[derive(Clone, Debug, PartialEq)]
pub struct TrueBlow {
    /// First moment of contact, in seconds.
    pub time_s: f64,
    /// Number of the place struck; blows of one place are one group.
    pub place: usize,
    /// Number of the member.
    pub member: usize,
    /// Whether the member is backbone.
    pub backbone: bool,
    /// What is wrong there.
    pub mechanism: Mechanism,
    /// Whether the surveyor said the place was known to be sound.
    pub reference: bool,
    /// First mode, in hertz.
    pub first_mode_hz: f64,
    /// Quality of the first mode.
    pub first_mode_q: f64,
    /// Time in contact, in seconds.
    pub contact_s: f64,
    /// Peak of the blow, 1 being that of the walk's median solid blow.
    pub peak: f64,
    /// Energy of the blow over that of everything else in its first 100 ms, in decibels.
    pub snr_db: f64,
}

/// A stretch of talk.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Talk {
    /// Beginning, in seconds.
    pub from_s: f64,
    /// End, in seconds.
    pub to_s: f64,
}

/// An invented recording with the truth about it.
#[derive(Clone, Debug)]
pub struct Walk {
    /// Samples, from -1 to 1, one channel.
    pub samples: Vec<f32>,
    /// Samples per second.
    pub rate_hz: f64,
    /// The blows, in order.
    pub blows: Vec<TrueBlow>,
    /// When somebody talked.
    pub talk: Vec<Talk>,
}

struct Struck {
    blow: TrueBlow,
    samples: Vec<f64>,
}

impl Walk {
    /// Invents a walk.
    pub fn new(setting: &Setting) -> Walk {
        let rate = setting.rate_hz;
        let count = (setting.seconds * rate) as usize;
        let mut time = Dice::new(setting.seed, "timeline");
        let mut dice = Dice::new(setting.seed, "blows");
        let mut talker = Dice::new(setting.seed, "speech");
        let (mut struck, mut spoken) = (Vec::new(), vec![0.0; count]);
        let mut talk = Vec::new();
        timeline(setting, &mut time, &mut dice, &mut talker, &mut struck, &mut spoken, &mut talk);
        let mut solid: Vec<f64> =
            struck.iter().filter(|s| s.blow.mechanism == Mechanism::Solid).map(|s| s.blow.peak).collect();
        solid.sort_by(f64::total_cmp);
        let unit = solid.get(solid.len() / 2).copied().unwrap_or(1.0);
        level_speech(&mut spoken, &talk, setting.noise.speech_db(), rate);
        let mut rest = yard(&mut Dice::new(setting.seed, "noise"), setting.noise, count, rate);
        for (y, s) in rest.iter_mut().zip(&spoken) {
            *y += s;
        }
        let mut hit = vec![0.0; count];
        for s in &mut struck {
            s.blow.peak /= unit;
            let at = (s.blow.time_s * rate).round() as usize;
            let window = (0.1 * rate) as usize;
            let energy: f64 = s.samples.iter().take(window).map(|x| x * x / unit / unit).sum();
            let other: f64 = rest.iter().skip(at).take(window).map(|x| x * x).sum();
            s.blow.snr_db = 10.0 * (energy / other.max(1e-30)).log10();
            for (y, x) in hit.iter_mut().skip(at).zip(&s.samples) {
                *y += x / unit;
            }
        }
        let mut mixed: Vec<f64> = hit.iter().zip(&rest).map(|(a, b)| 0.22 * (a + b)).collect();
        Filter::high_pass(rate, 70.0, std::f64::consts::FRAC_1_SQRT_2).pass_all(&mut mixed);
        if setting.level_control {
            level_control(&mut mixed, rate);
        }
        let samples = mixed.iter().map(|x| ((x.clamp(-1.0, 1.0) * 32767.0).round() / 32768.0) as f32).collect();
        Walk { samples, rate_hz: rate, blows: struck.into_iter().map(|s| s.blow).collect(), talk }
    }
}

fn timeline(
    setting: &Setting,
    time: &mut Dice,
    dice: &mut Dice,
    talker: &mut Dice,
    struck: &mut Vec<Struck>,
    spoken: &mut [f64],
    talk: &mut Vec<Talk>,
) {
    let rate = setting.rate_hz;
    let hammer = Hammer::draw(dice);
    let depth = dice.factor(0.1);
    let kinds: Vec<Member> = (0..6).map(|k| Member::draw(dice, k == 5, depth)).collect();
    let room = Place::draw(dice, rate);
    let (mut now, mut place) = (1.0, 0_usize);
    let mut say = |now: f64, seconds: f64, talker: &mut Dice, talk: &mut Vec<Talk>| -> f64 {
        let words = setting.voice.say(talker, seconds, rate);
        let at = (now * rate) as usize;
        for (y, w) in spoken.iter_mut().skip(at).zip(&words) {
            *y += w;
        }
        let to = now + words.len() as f64 / rate;
        if !words.is_empty() {
            talk.push(Talk { from_s: now, to_s: to.min(setting.seconds) });
        }
        to
    };
    while now < setting.seconds - 3.0 {
        let reference = place < 12;
        let named_before = time.happens(0.75);
        if named_before {
            now = say(now, time.between(0.9, 2.2), talker, talk) + time.between(0.15, 0.9);
        }
        let member = if reference { place % kinds.len() } else { dice.below(kinds.len()) };
        let mechanism = if reference { Mechanism::Solid } else { draw_mechanism(dice) };
        let wood = kinds[member].jittered(dice, 0.08);
        let spot = wood.struck(dice, mechanism, rate);
        // Some people talk on while they tap.
        if setting.blows && time.happens(0.15) {
            say(now - 0.2, 1.5, talker, talk);
        }
        let blows = if setting.blows { 1 + time.below(5) } else { 0 };
        for _ in 0..blows {
            if now > setting.seconds - 0.6 {
                break;
            }
            let strike = spot.strike(dice, &hammer, rate);
            let samples = room.heard(&strike.samples);
            let peak = samples.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
            // Contact begins on a sample, so that the truth is exact.
            let at = (now * rate).round() / rate;
            let blow = TrueBlow {
                time_s: at,
                place,
                member,
                backbone: wood.backbone,
                mechanism,
                reference,
                first_mode_hz: spot.modes_hz.first().copied().unwrap_or(0.0),
                first_mode_q: 1.0 / spot.loss,
                contact_s: strike.contact_s,
                peak,
                snr_db: 0.0,
            };
            struck.push(Struck { blow, samples });
            now += time.between(0.22, 0.85);
        }
        if !named_before {
            now = say(now + time.between(0.1, 0.6), time.between(0.9, 2.2), talker, talk);
        } else if time.happens(0.3) {
            now = say(now + time.between(0.2, 0.8), time.between(0.8, 3.0), talker, talk);
        }
        now += time.between(0.4, 2.0);
        place += 1;
    }
}

fn draw_mechanism(dice: &mut Dice) -> Mechanism {
    let u = dice.unit();
    if u < 0.60 {
        Mechanism::Solid
    } else if u < 0.82 {
        [Mechanism::Loose, Mechanism::Checked, Mechanism::Void][dice.below(3)]
    } else {
        Mechanism::Decay
    }
}

/// Brings the talk's 99th percentile to a level under 1.
fn level_speech(spoken: &mut [f64], talk: &[Talk], db: f64, rate: f64) {
    let mut heard: Vec<f64> = Vec::new();
    for t in talk {
        let (a, b) = ((t.from_s * rate) as usize, ((t.to_s * rate) as usize).min(spoken.len()));
        heard.extend(spoken.get(a..b).unwrap_or(&[]).iter().step_by(7).map(|x| x.abs()));
    }
    if heard.is_empty() {
        return;
    }
    heard.sort_by(f64::total_cmp);
    let high = heard[(heard.len() - 1) * 99 / 100].max(1e-12);
    let gain = 10_f64.powf(db / 20.0) / high;
    for y in spoken {
        *y *= gain;
    }
}

/// A recorder's automatic level: attack 5 ms, release 300 ms, at most 12 dB.
fn level_control(signal: &mut [f64], rate: f64) {
    let (attack, release) = ((-1.0 / (0.005 * rate)).exp(), (-1.0 / (0.3 * rate)).exp());
    let mut envelope = 0.0_f64;
    for x in signal {
        let level = x.abs();
        let keep = if level > envelope { attack } else { release };
        envelope = keep * envelope + (1.0 - keep) * level;
        *x *= (0.1 / envelope.max(1e-6)).clamp(0.25, 1.0) * 2.0;
    }
}
