//! `ribband serve`.

use super::issue::DeskIssuer;
use crate::arguments::ServeArgs;
use crate::desk::Desk;
use crate::fault::Fault;
use server::devices::{Devices, Ports};
use std::sync::Arc;

pub fn run(desk: Desk, args: ServeArgs) -> Result<(), Fault> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().map_err(Fault::undone)?;
    let config = server::Config { port: args.port };
    let issuer = DeskIssuer { folder: desk.folder().to_owned() };
    let devices = match args.pair {
        Some(name) => {
            let ports = Ports { workbench: args.pair_port, hand_over: args.hand_over_port };
            let devices = Devices::kept_in(desk.folder(), name, ports);
            Some(Arc::new(devices.map_err(|why| Fault::undone(format!("devices cannot be let in: {why}")))?))
        }
        None => None,
    };
    let setup =
        server::Setup { issuer: Some(Arc::new(issuer)), clients: args.clients, devices, ..server::Setup::default() };
    runtime.block_on(server::serve(config, Arc::new(desk.into_store()), setup)).map_err(Fault::undone)
}
