//! The server through its router, and through a port, with a store in memory.

mod app;
mod asking;
mod attachments;
mod clients;
mod described;
mod devices;
mod exchange;
mod faults;
mod guarded;
mod live;
mod plain;
mod reports;
