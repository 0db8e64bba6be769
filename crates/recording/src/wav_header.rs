//! WAV files whose header was written before the end was known: the lengths in it are 0, the greatest number, or more than the
//! file holds. They are read as if it told the truth.

use std::io::{Read, Result, Seek, SeekFrom};
use symphonia::core::io::MediaSource;

/// A source with the lengths in its header put right, where they were wrong.
pub(crate) struct Mended<S> {
    inner: S,
    at: u64,
    patches: Vec<(u64, [u8; 4])>,
}

impl<S: MediaSource> Mended<S> {
    /// Looks at the header; a source that is no WAV, or a right one, is passed on as it is.
    pub(crate) fn new(mut inner: S) -> Mended<S> {
        let patches = patches(&mut inner).unwrap_or_default();
        Mended { inner, at: 0, patches }
    }

    /// Tells whether lengths were put right.
    pub(crate) fn was_wrong(&self) -> bool {
        !self.patches.is_empty()
    }
}

fn patches<S: MediaSource>(source: &mut S) -> Option<Vec<(u64, [u8; 4])>> {
    let length = source.seek(SeekFrom::End(0)).ok()?;
    source.seek(SeekFrom::Start(0)).ok()?;
    let mut head = Vec::new();
    source.by_ref().take(65_536).read_to_end(&mut head).ok()?;
    if head.get(..4)? != b"RIFF" || head.get(8..12)? != b"WAVE" || length > u64::from(u32::MAX) {
        return None;
    }
    let number = |at: usize| Some(u64::from(u32::from_le_bytes(head.get(at..at + 4)?.try_into().ok()?)));
    let mut at = 12;
    while head.get(at..at + 4)? != b"data" {
        at += 8 + (number(at + 4)? as usize).next_multiple_of(2);
    }
    let (said, held) = (number(at + 4)?, length - (at as u64 + 8));
    // A length that is too great by little is a broken end, which the reader tells of itself; 0 with samples after it is none.
    let unknown = (said == 0 && held > 0) || said >= u64::from(u32::MAX) - 65_536;
    if !unknown && number(4)? >= at as u64 {
        return None;
    }
    let data = if unknown { held } else { said.min(held) };
    Some(vec![(4, ((length - 8) as u32).to_le_bytes()), (at as u64 + 4, (data as u32).to_le_bytes())])
}

impl<S: Read> Read for Mended<S> {
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize> {
        let count = self.inner.read(buffer)?;
        for (place, bytes) in &self.patches {
            for (i, byte) in bytes.iter().enumerate() {
                let here = place + i as u64;
                if (self.at..self.at + count as u64).contains(&here) {
                    buffer[(here - self.at) as usize] = *byte;
                }
            }
        }
        self.at += count as u64;
        Ok(count)
    }
}

impl<S: Seek> Seek for Mended<S> {
    fn seek(&mut self, to: SeekFrom) -> Result<u64> {
        self.at = self.inner.seek(to)?;
        Ok(self.at)
    }
}

impl<S: MediaSource> MediaSource for Mended<S> {
    fn is_seekable(&self) -> bool {
        self.inner.is_seekable()
    }

    fn byte_len(&self) -> Option<u64> {
        self.inner.byte_len()
    }
}
