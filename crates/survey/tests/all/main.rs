//! The record's behaviour through its public interface.

mod catalogue;
mod chain;
mod fold;
mod payloads;
mod story;
