//! Programs killed while they write.

use std::collections::BTreeSet;
use std::fs::{self, File};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use store::{SqliteStore, Store, verify};
use survey::Digest;

const ROUNDS: usize = 210;

/// What a killed program had said was recorded.
#[derive(Default)]
struct Acknowledged {
    entries: BTreeSet<Digest>,
    attachments: BTreeSet<Digest>,
}

impl Acknowledged {
    fn read(&mut self, said: &Path) {
        // A line without its end is no acknowledgement.
        let said = fs::read_to_string(said).unwrap();
        for line in said.split_inclusive('\n').filter_map(|line| line.strip_suffix('\n')) {
            match line.split_once(' ').unwrap() {
                ("entry", hash) => self.entries.insert(hash.parse().unwrap()),
                ("attachment", sha256) => self.attachments.insert(sha256.parse().unwrap()),
                other => panic!("{other:?}"),
            };
        }
    }

    fn is_all_there(&self, store: &dyn Store) {
        let entries: Vec<Digest> = self.entries.iter().copied().collect();
        assert_eq!(store.lacks(&entries).unwrap(), [], "entries acknowledged and lost");
        let attachments: Vec<Digest> = self.attachments.iter().copied().collect();
        assert_eq!(store.lacks_attachments(&attachments).unwrap(), [], "attachments acknowledged and lost");
    }
}

/// This shows that nothing is lost when a program ends at any moment. That nothing is lost when the power fails rests
/// on the sync calls, which a test without such hardware cannot show.
#[test]
fn whatever_was_acknowledged_is_there_after_two_hundred_kills() {
    let folder = tempfile::tempdir().unwrap();
    let book = folder.path().join("book");
    let mut acknowledged = Acknowledged::default();
    let (mut killed, mut at_work, mut random) = (0, 0, 0x9e37_79b9_7f4a_7c15_u64);
    let mut next = || {
        // xorshift64 (G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003).
        random ^= random << 13;
        random ^= random >> 7;
        random ^= random << 17;
        random
    };
    for round in 0..ROUNDS {
        // Now and then two at once, for one device.
        let count = if round % 5 == 0 { 2 } else { 1 };
        let said: Vec<_> = (0..count).map(|n| folder.path().join(format!("said-{round}-{n}"))).collect();
        let mut programs: Vec<Child> = said
            .iter()
            .map(|said| {
                Command::new(env!("CARGO_BIN_EXE_keep-writing"))
                    .args([book.as_os_str(), "office".as_ref(), "forever".as_ref()])
                    .stdout(Stdio::from(File::create(said).unwrap()))
                    .stderr(Stdio::null())
                    .spawn()
                    .unwrap()
            })
            .collect();
        // Half are killed once they are at work, the others at any moment from their start.
        if round % 2 == 0 {
            let begun = Instant::now();
            while fs::metadata(&said[0]).unwrap().len() == 0 && begun.elapsed() < Duration::from_secs(10) {
                std::thread::sleep(Duration::from_micros(200));
            }
        }
        std::thread::sleep(Duration::from_micros(next() % 25_000));
        for program in &mut programs {
            program.kill().unwrap();
        }
        for mut program in programs {
            let status = program.wait().unwrap();
            #[cfg(unix)]
            assert_eq!(std::os::unix::process::ExitStatusExt::signal(&status), Some(9), "it was still running");
            killed += 1;
        }
        let before = acknowledged.entries.len();
        said.iter().for_each(|said| acknowledged.read(said));
        at_work += usize::from(acknowledged.entries.len() > before);

        let store = SqliteStore::open(&book).unwrap();
        acknowledged.is_all_there(&store);
        if round % 30 == 29 || round + 1 == ROUNDS {
            let verified = verify(&store).unwrap();
            assert!(verified.fits(), "{:#?}", verified.misfits);
            assert!(verified.entries as usize >= acknowledged.entries.len());
        }
    }
    eprintln!(
        "{killed} programs killed, {at_work} rounds after they had begun to write; {} entries and {} attachments \
         acknowledged and found",
        acknowledged.entries.len(),
        acknowledged.attachments.len()
    );
    assert!(killed >= 200);
    assert!(at_work >= ROUNDS / 3, "too few were killed at work: {at_work}");
}
