//! Writes the field book's lines anew with every reckoning done again from its inputs, for use when a reckoner has
//! changed: `cargo run -p demo --example reckon_again < entries.jsonl > new.jsonl`.

use serde_json::{Value, json};
use std::io::Read;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut lines = String::new();
    std::io::stdin().read_to_string(&mut lines)?;
    for line in lines.lines() {
        let mut value: Value = serde_json::from_str(line)?;
        if value["kind"] != "reckoning" {
            println!("{line}");
            continue;
        }
        let payload = &value["payload"];
        let name = payload["topic"].as_str().ok_or("a reckoning without a topic")?;
        let topic = reckon::find(name).ok_or_else(|| format!("there is no reckoner `{name}`"))?;
        let inputs = payload["inputs"].as_object().ok_or("a reckoning without inputs")?;
        let answer = topic.reckon(reckon::Inputs::from_json(topic, inputs)?)?.to_json();
        let mut again = json!({});
        for key in ["topic", "version", "inputs", "results", "equation", "sources", "cautions"] {
            again[key] = answer[key].clone();
        }
        for key in ["member", "note"] {
            if let Some(said) = payload.get(key) {
                again[key] = said.clone();
            }
        }
        value["payload"] = again;
        println!("{value}");
    }
    Ok(())
}
