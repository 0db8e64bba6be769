//! Reading a blob, and writing one, a piece at a time.

use js_sys::{Array, Uint8Array};
use send_wrapper::SendWrapper;
use std::cell::Cell;
use std::io::{self, Read, Seek, SeekFrom, Write};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::{Blob, BlobPropertyBag, FileReaderSync};

#[wasm_bindgen]
extern "C" {
    /// Tells the page how many bytes were read in all.
    #[wasm_bindgen(js_name = carriedSoFar)]
    fn carried_so_far(bytes: f64);
}

thread_local! {
    static READ: Cell<f64> = const { Cell::new(0.0) };
}

/// How much is read or written at a time.
const PIECE: usize = 1 << 20;

/// A blob that is read as a file is.
pub struct BlobRead {
    // A worker has one thread.
    blob: SendWrapper<Blob>,
    at: u64,
    length: u64,
    /// What was read last, and where it lies.
    piece: Vec<u8>,
    piece_at: u64,
}

impl BlobRead {
    pub fn new(blob: Blob) -> Self {
        // A whole number of bytes below 2^53.
        let length = blob.size() as u64;
        Self { blob: SendWrapper::new(blob), at: 0, length, piece: Vec::new(), piece_at: 0 }
    }

    pub fn length(&self) -> u64 {
        self.length
    }

    fn fetch(&mut self) -> Result<(), JsValue> {
        let end = (self.at + PIECE as u64).min(self.length);
        let slice = self.blob.slice_with_f64_and_f64(self.at as f64, end as f64)?;
        let buffer = FileReaderSync::new()?.read_as_array_buffer(&slice)?;
        self.piece = Uint8Array::new(&buffer).to_vec();
        self.piece_at = self.at;
        READ.set(READ.get() + self.piece.len() as f64);
        carried_so_far(READ.get());
        Ok(())
    }
}

impl Read for BlobRead {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.at >= self.length || into.is_empty() {
            return Ok(0);
        }
        let held = self.piece_at..self.piece_at + self.piece.len() as u64;
        if !held.contains(&self.at) {
            self.fetch().map_err(fault)?;
        }
        let from = usize::try_from(self.at - self.piece_at).unwrap_or(usize::MAX);
        let rest = self.piece.get(from..).unwrap_or_default();
        let count = rest.len().min(into.len());
        if count == 0 {
            return Err(io::Error::new(io::ErrorKind::UnexpectedEof, "the file ends before its length"));
        }
        into[..count].copy_from_slice(&rest[..count]);
        self.at += count as u64;
        Ok(count)
    }
}

impl Seek for BlobRead {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        let at = match to {
            SeekFrom::Start(at) => Some(at),
            SeekFrom::End(by) => self.length.checked_add_signed(by),
            SeekFrom::Current(by) => self.at.checked_add_signed(by),
        };
        self.at = at.ok_or_else(|| io::Error::new(io::ErrorKind::InvalidInput, "a place before the beginning"))?;
        Ok(self.at)
    }
}

/// A blob being written: pieces are handed to the browser as they fill.
#[derive(Default)]
pub struct BlobWrite {
    pieces: Array,
    piece: Vec<u8>,
}

impl BlobWrite {
    fn hand_over(&mut self) -> Result<(), JsValue> {
        if !self.piece.is_empty() {
            let bytes = Uint8Array::from(self.piece.as_slice());
            // A blob is out of the page's memory; a list of arrays is in it.
            let piece = Blob::new_with_u8_array_sequence(&Array::of1(&bytes))?;
            self.pieces.push(&piece);
            self.piece.clear();
        }
        Ok(())
    }

    /// Returns what was written.
    pub fn finish(mut self, kind: &str) -> Result<Blob, JsValue> {
        self.hand_over()?;
        let options = BlobPropertyBag::new();
        options.set_type(kind);
        Blob::new_with_blob_sequence_and_options(&self.pieces, &options)
    }
}

impl Write for BlobWrite {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.piece.extend_from_slice(bytes);
        if self.piece.len() >= PIECE {
            self.hand_over().map_err(fault)?;
        }
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Returns what the browser threw as a fault of reading or writing.
pub fn fault(thrown: JsValue) -> io::Error {
    let words = js_sys::Reflect::get(&thrown, &"message".into()).ok().and_then(|words| words.as_string());
    io::Error::other(words.unwrap_or_else(|| "the browser did not say why".to_owned()))
}
