//! Several channels to one.

/// Which channel of a recording to take.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Channel {
    /// The mean of all; or the louder one when they have little in common, so that a dead or foreign channel does no harm.
    #[default]
    Mix,
    /// One channel, counted from 1.
    Only(usize),
}

/// Seconds by which it is decided whether channels belong together.
const DECIDE_S: usize = 5;

/// Mixes; decides after the first seconds.
pub(crate) struct Mixer {
    pub(crate) channel: Channel,
    pub(crate) chose_one: bool,
    waiting: Vec<Vec<f32>>,
    decided: Option<Option<usize>>,
}

impl Mixer {
    pub(crate) fn new(channel: Channel) -> Mixer {
        let decided = match channel {
            Channel::Mix => None,
            Channel::Only(n) => Some(Some(n.saturating_sub(1))),
        };
        Mixer { channel, chose_one: false, waiting: Vec::new(), decided }
    }

    /// Takes the channels of a packet and returns what is ready.
    pub(crate) fn take(&mut self, planes: Vec<Vec<f32>>, rate_hz: u32) -> Vec<f32> {
        if planes.len() == 1 {
            return planes.into_iter().next().unwrap_or_default();
        }
        if let Some(choice) = self.decided {
            return mixed(&planes, choice);
        }
        self.waiting.resize_with(planes.len(), Vec::new);
        for (kept, plane) in self.waiting.iter_mut().zip(planes) {
            kept.extend(plane);
        }
        if self.waiting[0].len() < DECIDE_S * rate_hz as usize { Vec::new() } else { self.rest() }
    }

    /// Decides with what there is and returns it.
    pub(crate) fn rest(&mut self) -> Vec<f32> {
        let waiting = std::mem::take(&mut self.waiting);
        if waiting.is_empty() {
            return Vec::new();
        }
        let choice = *self.decided.get_or_insert_with(|| choose(&waiting));
        self.chose_one = choice.is_some() && self.channel == Channel::Mix;
        mixed(&waiting, choice)
    }
}

fn energy(x: &[f32]) -> f64 {
    x.iter().map(|v| f64::from(*v) * f64::from(*v)).sum()
}

fn choose(planes: &[Vec<f32>]) -> Option<usize> {
    let loudest = (0..planes.len()).max_by(|a, b| energy(&planes[*a]).total_cmp(&energy(&planes[*b])))?;
    let loud = &planes[loudest];
    let alike = planes.iter().enumerate().filter(|(i, _)| *i != loudest).all(|(_, p)| {
        let shared: f64 = loud.iter().zip(p).map(|(a, b)| f64::from(*a) * f64::from(*b)).sum();
        let both = (energy(loud) * energy(p)).sqrt();
        both > 0.0 && shared / both >= 0.3
    });
    if alike || energy(loud) == 0.0 { None } else { Some(loudest) }
}

fn mixed(planes: &[Vec<f32>], choice: Option<usize>) -> Vec<f32> {
    if let Some(one) = choice {
        return planes.get(one).cloned().unwrap_or_default();
    }
    let share = 1.0 / planes.len() as f32;
    let length = planes.iter().map(Vec::len).min().unwrap_or(0);
    (0..length).map(|i| planes.iter().map(|p| p[i]).sum::<f32>() * share).collect()
}
