//! The help, which is the manual.

use crate::book::Book;

#[test]
fn every_command_has_help_with_an_example() {
    let book = Book::new();
    let top = book.good(&["--help"]);
    assert!(top.contains("Exit status:"));
    for command in [
        "create",
        "list",
        "show",
        "enter",
        "attach",
        "amend",
        "report",
        "draw",
        "pack",
        "unpack",
        "verify",
        "serve",
        "demo",
        "completions",
    ] {
        assert!(top.contains(command), "{command} is listed");
        let help = book.good(&[command, "--help"]);
        assert!(help.contains("Example"), "{command}: {help}");
    }
}

#[test]
fn completions_are_made_for_the_usual_shells() {
    let book = Book::new();
    for shell in ["bash", "zsh", "fish"] {
        assert!(book.good(&["completions", shell]).contains("ribband"));
    }
}

#[test]
fn what_is_not_accepted_ends_with_status_2() {
    let book = Book::new();
    assert_eq!(book.run(&["launch"]).status, 2);
    assert_eq!(book.run(&["show", "--entry"]).status, 2);
    assert!(book.refused(&["show"]).contains("no survey yet"));
}
