//! `ribband serve`.

use super::issue::DeskIssuer;
use crate::desk::Desk;
use crate::fault::Fault;
use std::sync::Arc;

pub fn run(desk: Desk, port: u16, clients: Option<server::ClientsAddress>) -> Result<(), Fault> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().map_err(Fault::undone)?;
    let config = server::Config { port };
    let issuer = DeskIssuer { folder: desk.folder().to_owned() };
    let setup = server::Setup { issuer: Some(Arc::new(issuer)), clients, ..server::Setup::default() };
    runtime.block_on(server::serve(config, Arc::new(desk.into_store()), setup)).map_err(Fault::undone)
}
