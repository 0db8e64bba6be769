//! Recordings of many formats, read into the rate and the one channel of the engine `sounding`.
//!
//! For: WAV, AIFF, FLAC, MP3, OGG Vorbis, AAC and ALAC in M4A, MP4 and MOV, of any sample rate and number of channels. Not for:
//! Opus, HE-AAC, or finding blows. What can be read of a broken file is read, and the rest is said in a caution.
//!
//! Read first: [`read`].

mod channel;
mod lead_in;
mod rate;
mod wav_header;

pub use channel::Channel;

use channel::Mixer;
use rate::Resampler;
use std::io::{Cursor, Read, Seek, SeekFrom};
use symphonia::core::{
    audio::GenericAudioBufferRef,
    codecs::audio::{AudioDecoder, AudioDecoderOptions},
    errors::Error,
    formats::{FormatOptions, FormatReader, TrackType, probe::Hint},
    io::{MediaSource, MediaSourceStream},
    meta::MetadataOptions,
};

/// What was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// Length of what was read, in seconds.
    pub seconds: f64,
    /// Samples per second in the file.
    pub rate_hz: u32,
    /// Channels in the file.
    pub channels: usize,
    /// What to be careful of, in sentences.
    pub cautions: Vec<String>,
}

/// Why nothing could be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unreadable {
    /// The bytes are of no format read here.
    #[error(
        "The recording cannot be read: {why}; accepted are WAV, AIFF, FLAC, MP3, OGG Vorbis, and AAC or ALAC in M4A, MP4 or MOV."
    )]
    Format {
        /// What the reader found wrong.
        why: String,
    },
    /// The file holds no sound.
    #[error("The recording holds no sound track; accepted is a file with at least one.")]
    NoSound,
    /// A channel was asked for that is not there.
    #[error("The recording has no channel {asked}; it has {channels}, counted from 1.")]
    NoChannel {
        /// Channel asked for, counted from 1.
        asked: usize,
        /// Channels there are.
        channels: usize,
    },
}

/// Reads a recording from its bytes. See [`read`].
///
/// # Errors
/// As [`read`].
pub fn read_bytes(bytes: Vec<u8>, channel: Channel, take: &mut dyn FnMut(&[f32])) -> Result<Told, Unreadable> {
    read(Cursor::new(bytes), channel, take)
}

/// Reads a recording and gives its samples, at [`sounding::RATE_HZ`] and of one channel, block by block to `take`. Only a few
/// seconds are ever in memory. The name of the file plays no part: the format is told from the bytes.
///
/// # Errors
/// Refuses what is no recording of an accepted format, one without sound, and a channel that is not there. A file that breaks
/// off, or some of whose packets cannot be decoded, is no error: what could be read is given, and a caution tells the rest.
pub fn read<S: MediaSource + Read + Seek + 'static>(
    source: S,
    channel: Channel,
    take: &mut dyn FnMut(&[f32]),
) -> Result<Told, Unreadable> {
    let mut source = wav_header::Mended::new(source);
    let mended = source.was_wrong();
    let lead_in = lead_in::of_mp4(&mut source);
    let refused = |error: &Error| Unreadable::Format { why: words(error) };
    source.seek(SeekFrom::Start(0)).map_err(|e| Unreadable::Format { why: e.to_string() })?;
    let stream = MediaSourceStream::new(Box::new(source), Default::default());
    let mut format = symphonia::default::get_probe()
        .probe(&Hint::new(), stream, FormatOptions::default(), MetadataOptions::default())
        .map_err(|e| refused(&e))?;
    let track = format.default_track(TrackType::Audio).ok_or(Unreadable::NoSound)?;
    let (id, promised, delay) = (track.id, track.num_frames, track.delay.unwrap_or(0));
    let parameters = track.codec_params.as_ref().and_then(|p| p.audio()).ok_or(Unreadable::NoSound)?;
    let decoder = symphonia::default::get_codecs()
        .make_audio_decoder(parameters, &AudioDecoderOptions::default())
        .map_err(|e| refused(&e))?;
    let mut reading = Reading {
        told: Told::default(),
        mixer: Mixer::new(channel),
        resampler: None,
        frames: 0,
        skip: lead_in.unwrap_or(0),
        bad_packets: 0,
    };
    if mended {
        reading.told.cautions.push(
            "The file's header does not tell its true length, as when a recorder loses power; all that is there was read.".to_owned(),
        );
    }
    reading.run(&mut *format, decoder, id, take)?;
    reading.end(promised.map(|p| p.saturating_sub(u64::from(delay))), take)
}

/// The state of one reading.
struct Reading {
    told: Told,
    mixer: Mixer,
    resampler: Option<Resampler>,
    frames: u64,
    skip: u64,
    bad_packets: u64,
}

impl Reading {
    fn run(
        &mut self,
        format: &mut dyn FormatReader,
        mut decoder: Box<dyn AudioDecoder>,
        id: u32,
        take: &mut dyn FnMut(&[f32]),
    ) -> Result<(), Unreadable> {
        loop {
            let packet = match format.next_packet() {
                Ok(Some(packet)) => packet,
                Ok(None) => return Ok(()),
                Err(error) => {
                    let at = self.seconds();
                    if self.frames == 0 {
                        return Err(Unreadable::Format { why: words(&error) });
                    }
                    self.told.cautions.push(format!(
                        "The recording breaks off after {at:.1} s ({}); what comes after could not be read.",
                        words(&error)
                    ));
                    return Ok(());
                }
            };
            if packet.track_id != id {
                continue;
            }
            match decoder.decode(&packet) {
                Ok(sound) => {
                    if !self.sound(&sound, take)? {
                        return Ok(());
                    }
                }
                Err(Error::DecodeError(_) | Error::IoError(_)) => self.bad_packets += 1,
                Err(error) if self.frames == 0 => return Err(Unreadable::Format { why: words(&error) }),
                Err(error) => {
                    let at = self.seconds();
                    self.told.cautions.push(format!(
                        "After {at:.1} s the recording could not be followed ({}); what comes after was left out.",
                        words(&error)
                    ));
                    return Ok(());
                }
            }
        }
    }

    /// Takes one packet's sound; tells whether to go on.
    fn sound(&mut self, sound: &GenericAudioBufferRef<'_>, take: &mut dyn FnMut(&[f32])) -> Result<bool, Unreadable> {
        let (rate, channels, frames) = (sound.spec().rate(), sound.num_planes(), sound.frames());
        if frames == 0 || channels == 0 {
            return Ok(true);
        }
        if self.resampler.is_none() {
            (self.told.rate_hz, self.told.channels) = (rate, channels);
            if let Channel::Only(asked) = self.mixer.channel
                && !(1..=channels).contains(&asked)
            {
                return Err(Unreadable::NoChannel { asked, channels });
            }
            let made = Resampler::new(rate)
                .ok_or_else(|| Unreadable::Format { why: format!("its sample rate of {rate} Hz makes no sense") })?;
            self.resampler = Some(made);
            if rate < 16_000 {
                self.told.cautions.push(format!(
                    "The recording has only {rate} samples a second: everything above {} Hz is missing, and with it much of what \
                     tells a sharp sound from a soft one.",
                    rate / 2
                ));
            }
        } else if (rate, channels) != (self.told.rate_hz, self.told.channels) {
            let at = self.seconds();
            self.told.cautions.push(format!(
                "After {at:.1} s the recording changes to {rate} Hz and {channels} channels; what comes after was left out."
            ));
            return Ok(false);
        }
        let mut planes: Vec<Vec<f32>> = Vec::new();
        sound.copy_to_vecs_planar(&mut planes);
        let skip = (self.skip as usize).min(frames);
        self.skip -= skip as u64;
        self.frames += (frames - skip) as u64;
        for plane in &mut planes {
            plane.drain(..skip.min(plane.len()));
        }
        let mixed = self.mixer.take(planes, self.told.rate_hz);
        self.give(&mixed, take);
        Ok(true)
    }

    fn give(&mut self, mixed: &[f32], take: &mut dyn FnMut(&[f32])) {
        if let Some(resampler) = &mut self.resampler {
            resampler.take(mixed, take);
        }
    }

    fn seconds(&self) -> f64 {
        self.frames as f64 / f64::from(self.told.rate_hz.max(1))
    }

    fn end(mut self, promised: Option<u64>, take: &mut dyn FnMut(&[f32])) -> Result<Told, Unreadable> {
        if self.frames == 0 {
            return Err(Unreadable::Format { why: "not one sample of it can be decoded".to_owned() });
        }
        let rest = self.mixer.rest();
        self.give(&rest, take);
        if let Some(resampler) = &mut self.resampler {
            resampler.end(take);
        }
        self.told.seconds = self.seconds();
        if self.bad_packets > 0 {
            self.told.cautions.push(format!(
                "{} pieces of the recording could not be decoded and were left out; times after them are early by their length.",
                self.bad_packets
            ));
        }
        if let Some(promised) = promised {
            let promised_s = promised as f64 / f64::from(self.told.rate_hz.max(1));
            let said_already = self.told.cautions.iter().any(|c| c.contains("breaks off"));
            if (promised_s - self.told.seconds).abs() > 0.5 && !said_already {
                self.told.cautions.push(format!(
                    "The file's own header speaks of {promised_s:.1} s, but {:.1} s could be read.",
                    self.told.seconds
                ));
            }
        }
        if self.mixer.chose_one {
            self.told.cautions.push("The channels differ much; the louder one was taken.".to_owned());
        }
        Ok(self.told)
    }
}

fn words(error: &Error) -> String {
    match error {
        Error::Unsupported(what) => format!("it holds what is not read here ({what})"),
        Error::IoError(e) if e.kind() == std::io::ErrorKind::UnexpectedEof => "it ends too early".to_owned(),
        other => other.to_string(),
    }
}
