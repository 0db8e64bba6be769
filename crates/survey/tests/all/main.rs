//! The record's behaviour through its public interface.

mod catalogue;
mod chain;
mod checks;
mod draws;
mod fold;
mod issued;
mod language;
mod next_survey;
mod payloads;
mod story;
mod strict_reading;
