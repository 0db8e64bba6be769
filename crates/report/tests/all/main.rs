//! Reports, read back from the file by readers that are not ours.

mod boat;
mod file;
mod photographs;
mod record;
mod text;
