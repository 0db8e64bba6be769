//! The file in which a recording made here is kept: plain PCM, so that nothing is lost on the way and anybody can read it.
//!
//! The layout is that of Microsoft and IBM, *Multimedia Programming Interface and Data Specifications 1.0* (1991), one
//! channel of 16-bit samples.

/// Returns samples between -1 and 1 as a WAV file of one channel. What is louder is cut at the limit.
pub fn wave(samples: &[f32], rate_hz: u32) -> Vec<u8> {
    // A WAV file cannot be longer than 4 GB; hours of sound at the engine's rate stay far below.
    let bytes = u32::try_from(samples.len() * 2).unwrap_or(u32::MAX - 36);
    let mut out = Vec::with_capacity(44 + samples.len() * 2);
    out.extend(b"RIFF");
    out.extend((36 + bytes).to_le_bytes());
    out.extend(b"WAVEfmt ");
    out.extend(16_u32.to_le_bytes());
    for word in [1_u16, 1] {
        out.extend(word.to_le_bytes());
    }
    out.extend(rate_hz.to_le_bytes());
    out.extend((rate_hz * 2).to_le_bytes());
    for word in [2_u16, 16] {
        out.extend(word.to_le_bytes());
    }
    out.extend(b"data");
    out.extend(bytes.to_le_bytes());
    for sample in samples {
        // A sample that is no number is silence.
        let value = if sample.is_nan() { 0.0 } else { (sample * 32768.0).round().clamp(-32768.0, 32767.0) };
        #[expect(clippy::cast_possible_truncation, reason = "within 16 bits by the clamp")]
        out.extend((value as i16).to_le_bytes());
    }
    out
}
