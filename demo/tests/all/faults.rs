//! A line that cannot be entered is named, with the reason.

use demo::{DemoFault, written_from};

const BRIEF: &str = r#"{"label":"b","device":"tablet","author":"A","at":"2026-05-11T08:00:00Z","kind":"brief","payload":{"purpose":"x"}}"#;

fn second(line: &str) -> DemoFault {
    written_from(&format!("{BRIEF}\n{line}\n")).expect_err("a fault")
}

fn entry(label: &str, at: &str, kind: &str, payload: &str) -> String {
    format!(r#"{{"label":"{label}","device":"tablet","author":"A","at":"{at}","kind":"{kind}","payload":{payload}}}"#)
}

#[test]
fn each_fault_names_its_line() {
    let late = "2026-05-11T09:00:00Z";
    let cases = [
        (second("{"), "line 2"),
        (second(r#"{"exchange":["tablet","phone"]}"#), "`phone`"),
        (second(&entry("b", late, "brief", r#"{"purpose":"x"}"#)), "`b` is taken"),
        (second(&entry("c", "yesterday", "brief", r#"{"purpose":"x"}"#)), "`yesterday`"),
        (second(&entry("c", "2026-05-11T08:00:00Z", "brief", r#"{"purpose":"x"}"#)), "not after"),
        (second(&entry("c", late, "brief", r#"{"porpoise":"x"}"#)), "porpoise"),
        (second(&entry("c", late, "follow_up", r#"{"recommendation":"@r","standing":"open","text":"x"}"#)), "`@r`"),
        (second(&entry("c", late, "follow_up", r#"{"recommendation":"@b","standing":"open","text":"x"}"#)), "brief"),
        (second(&entry("c", late, "attachment", r#"{"file":"pictures/none.jpg"}"#)), "pictures/none.jpg"),
        (second(&entry("c", late, "brief", r#"{"purpose":"x"}"#).replace(r#""author":"A""#, r#""author":"B""#)), "A's"),
    ];
    for (fault, names) in cases {
        let said = fault.to_string();
        assert!(said.starts_with("line 2") && said.contains(names), "{said}");
    }
}

#[test]
fn a_device_cannot_name_what_it_has_not_been_given() {
    let phone = r#"{"label":"p","device":"phone","author":"B","at":"2026-05-11T09:00:00Z","kind":"amendment","payload":{"amends":"@b","why":"x"}}"#;
    assert!(matches!(second(phone), DemoFault::NotAdmitted { line: 2, .. }));
    let first = r#"{"label":"q","device":"phone","author":"B","at":"2026-05-11T08:30:00Z","kind":"brief","payload":{"purpose":"x"}}"#;
    let met = r#"{"exchange":["tablet","phone"]}"#;
    assert!(written_from(&[BRIEF, first, met, phone].join("\n")).is_ok());
}
