//! Prints every topic's answer to its own example, as a person reads it.
//!
//! Run with `cargo run -p reckon --example every_topic`.

fn main() {
    for topic in reckon::table() {
        let inputs = reckon::Inputs::read(topic, topic.example.iter().copied());
        match inputs.and_then(|inputs| topic.reckon(inputs)) {
            Ok(reckoned) => {
                println!("— {}\n{reckoned}", topic.name);
                for key in reckoned.answer.results.keys() {
                    if !topic.figures.iter().any(|figure| figure.key == key) {
                        println!("Not declared: {key}");
                    }
                }
            }
            Err(refusal) => println!("— {}\n{refusal}", topic.name),
        }
    }
}
