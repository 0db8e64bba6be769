//! A program that writes to a field book until it is stopped, and says what has been acknowledged.
//!
//! `keep-writing FOLDER DEVICE forever | COUNT | hold MILLISECONDS`: writes entries and attachments without end, writes
//! so many entries, or keeps others from writing for a while. One line on standard output for each acknowledgement.

use std::error::Error;
use std::io::Write;
use std::time::{Duration, SystemTime, UNIX_EPOCH};
use store::{SqliteStore, Store, write_down};
use survey::payload::{Attachment, NotSeen, Payload};
use survey::{Digest, EntryId, Place, SurveyId};

const SURVEY: SurveyId = SurveyId::from_bits(7);

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [folder, device, what, rest @ ..] = arguments.as_slice() else {
        return Err("keep-writing FOLDER DEVICE forever | COUNT | hold MILLISECONDS".into());
    };
    let store = SqliteStore::open(folder)?;
    match what.as_str() {
        "forever" => loop {
            write_one_of_each(&store, device)?;
        },
        "hold" => {
            let wait = Duration::from_millis(rest.first().ok_or("for how long?")?.parse()?);
            store.append_with(SURVEY, device, &mut |_| {
                say("holding");
                std::thread::sleep(wait);
                Ok(Vec::new())
            })?;
        }
        count => {
            for _ in 0..count.parse::<u32>()? {
                write_entry(&store, device, note())?;
            }
        }
    }
    Ok(())
}

fn write_one_of_each(store: &SqliteStore, device: &str) -> Result<(), Box<dyn Error>> {
    let bytes = some_bytes();
    let kept = store.put_attachment(&mut bytes.as_slice(), None)?;
    say(&format!("attachment {}", kept.sha256));
    write_entry(store, device, photograph(kept.sha256, kept.bytes))?;
    write_entry(store, device, note())
}

fn write_entry(store: &SqliteStore, device: &str, payload: Payload) -> Result<(), Box<dyn Error>> {
    let id = EntryId::from_bits(u128::from(now_ns()) << 32 | u128::from(std::process::id()));
    let written = write_down(store, SURVEY, "A. Surveyor", device, now_ns() / 1_000_000, &[(id, payload)])?;
    for entry in written {
        say(&format!("entry {}", entry.hash()));
    }
    Ok(())
}

fn say(line: &str) {
    // Whoever started this may have stopped reading; then there is no one to tell.
    let _ = writeln!(std::io::stdout(), "{line}");
}

fn note() -> Payload {
    let words = "covered by the ceiling ".repeat((now_ns() % 40) as usize);
    Payload::from(NotSeen { member: "frame".into(), place: Place::default(), why: words, needs: String::new() })
}

fn photograph(sha256: Digest, bytes: u64) -> Payload {
    Payload::from(Attachment {
        sha256,
        bytes,
        media_type: "image/jpeg".into(),
        file_name: "garboard.jpg".into(),
        caption: String::new(),
        alternative: String::new(),
        of: None,
        taken: None,
        position_deg: None,
    })
}

/// Returns up to 64 KiB that are hardly ever the same.
fn some_bytes() -> Vec<u8> {
    let mut state = now_ns() | 1;
    let mut next = || {
        // xorshift64 (G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003).
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state
    };
    let words = 1 + next() % 8192;
    (0..words).flat_map(|_| next().to_le_bytes()).collect()
}

fn now_ns() -> u64 {
    SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_nanos() as u64)
}
