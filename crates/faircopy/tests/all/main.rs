//! Tests of the room `faircopy`, in one binary.

mod book;
mod issue;
mod money;
mod page;
mod sheet;
mod told;
mod word;
