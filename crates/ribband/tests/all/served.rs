//! The workbench served from the built program.

use crate::book::Book;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Command, Stdio};

#[test]
fn it_says_where_it_is_answers_and_ends_when_told() {
    let book = Book::with_survey();
    let mut child = book.command(&["serve", "--port", "0"]).stdout(Stdio::piped()).spawn().expect("the program runs");
    let mut said = String::new();
    BufReader::new(child.stdout.as_mut().unwrap()).read_line(&mut said).unwrap();
    let address =
        said.split("http://").nth(1).and_then(|rest| rest.split('/').next()).expect("it says where").to_owned();
    let mut stream = TcpStream::connect(&address).expect("it listens");
    write!(stream, "GET /plain HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n").unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    assert!(answer.starts_with("HTTP/1.1 200") && answer.contains("Example"), "{answer}");

    let second = book.run(&["serve", "--port", address.rsplit(':').next().unwrap()]);
    assert_eq!(second.status, 1);
    assert!(second.err.contains("--port"), "{}", second.err);

    let told = Command::new("kill").args(["-TERM", &child.id().to_string()]).status().unwrap();
    assert!(told.success());
    assert!(child.wait().unwrap().success());
}
