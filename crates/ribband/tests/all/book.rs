//! A folder of its own for each test, and the program run in it.

use serde_json::Value;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

pub struct Book {
    pub folder: tempfile::TempDir,
}

/// What the program said.
pub struct Said {
    pub status: i32,
    pub out: String,
    pub err: String,
}

impl Book {
    pub fn new() -> Self {
        Self { folder: tempfile::tempdir().expect("a folder for the test") }
    }

    /// A folder with a survey of an invented boat in it.
    pub fn with_survey() -> Self {
        let book = Self::new();
        let words = ["create", "--author", "A. Surveyor", "--name", "Example", "--construction", "clinker"];
        book.good(&[&words[..], &["--purpose", "pre-purchase", "--client", "A. Buyer"]].concat());
        book
    }

    pub fn surveys(&self) -> PathBuf {
        self.folder.path().join("surveys")
    }

    pub fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::write(&path, bytes).expect("a file for the test");
        path
    }

    pub fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ribband"));
        command.args(words).current_dir(self.folder.path());
        command.env("RIBBAND_FOLDER", self.surveys()).env_remove("RIBBAND_AUTHOR").stdin(Stdio::null());
        command
    }

    pub fn run(&self, words: &[&str]) -> Said {
        said(&self.command(words).output().expect("the program runs"))
    }

    pub fn run_with_input(&self, words: &[&str], input: &str) -> Said {
        let mut child = self
            .command(words)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs");
        // The program may refuse before it has read everything.
        let _ = child.stdin.take().expect("its input").write_all(input.as_bytes());
        said(&child.wait_with_output().expect("the program ends"))
    }

    /// Runs and insists that all went well.
    pub fn good(&self, words: &[&str]) -> String {
        let said = self.run(words);
        assert_eq!(said.status, 0, "{words:?}: {}{}", said.out, said.err);
        said.out
    }

    pub fn json(&self, words: &[&str]) -> Value {
        let text = self.good(&[words, &["--json"]].concat());
        serde_json::from_str(&text).expect("JSON")
    }

    /// Runs and insists on exit status 2, an empty standard output and one line on standard error, which it returns.
    pub fn refused(&self, words: &[&str]) -> String {
        let said = self.run(words);
        assert_eq!((said.status, said.out.as_str()), (2, ""), "{words:?}: {}", said.err);
        assert_eq!(said.err.trim_end().lines().count(), 1, "{words:?}: {}", said.err);
        said.err.trim_end().to_owned()
    }

    /// The name of the only entry that a command wrote.
    pub fn entered(&self, words: &[&str]) -> String {
        let value = self.json(words);
        value["entries"][0].as_str().expect("an entry's name").to_owned()
    }
}

fn said(output: &Output) -> Said {
    Said {
        status: output.status.code().unwrap_or(-1),
        out: String::from_utf8_lossy(&output.stdout).into_owned(),
        err: String::from_utf8_lossy(&output.stderr).into_owned(),
    }
}

/// The text of a PDF as poppler reads it, independent of what wrote it.
pub fn text_of_pdf(pdf: &Path) -> String {
    let output = Command::new("pdftotext")
        .args(["-raw", "-enc", "UTF-8"])
        .arg(pdf)
        .arg("-")
        .output()
        .expect("pdftotext is there (Debian: poppler-utils)");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    // Words may be broken at places that the report marks with a zero-width space or a soft hyphen.
    String::from_utf8(output.stdout).expect("text").replace(['\u{200b}', '\u{ad}'], "")
}

/// A picture as a camera would give it.
pub fn jpeg(width: u32, height: u32) -> Vec<u8> {
    let picture = image::RgbImage::from_fn(width, height, |x, y| image::Rgb([(x % 256) as u8, (y % 256) as u8, 90]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    picture.write_to(&mut bytes, image::ImageFormat::Jpeg).expect("a picture");
    bytes.into_inner()
}
