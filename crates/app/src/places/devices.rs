//! Devices that are let in: shown at the desk, where one more is invited and one is turned out.

use crate::book::Workbench;
use crate::exchange::devices::{Device, Devices, Invitation, devices, invite, turn_out};
use crate::words::when;
use leptos::prelude::*;

/// The devices that are paired with the workbench, and inviting one more.
#[component]
pub fn PairedDevices() -> impl IntoView {
    let bench = Workbench::here();
    let all = RwSignal::new(None::<Devices>);
    let invitation = RwSignal::new(None::<Invitation>);
    let look = move || {
        leptos::task::spawn_local(async move {
            // Where none are let in, and on a device itself, there is nothing to show.
            all.try_set(devices().await.ok().flatten());
        });
    };
    look();
    let ask = move |_| {
        leptos::task::spawn_local(async move {
            match invite().await {
                Ok(one) => {
                    invitation.try_set(Some(one));
                }
                Err(fault) => bench.complain(crate::book::sentence(&fault.to_string())),
            }
        });
    };
    let out = move |device: Device| {
        leptos::task::spawn_local(async move {
            match turn_out(&device.id).await {
                Ok(()) => bench.say(format!("“{}” is turned out. What it holds stays on it.", device.name)),
                Err(fault) => bench.complain(crate::book::sentence(&fault.to_string())),
            }
            look();
        });
    };
    view! {
        {move || all.get().map(|said| view! {
            <section class="device paired"><h2>"Devices that are let in"</h2>
                <Show when=move || all.with(|all| all.as_ref().is_some_and(|all| all.devices.is_empty()))>
                    <p class="teach">"None yet. A paired phone keeps the surveys it opens, works under the boat with no network, and sends what it holds when it is back in reach."</p>
                </Show>
                <ul class="paired-list">{said.devices.iter().map(|device| {
                    let (name, own) = (device.name.clone(), device.clone());
                    view! {
                        <li><span class="survey-name">{name.clone()}</span><span class="survey-about">{about(device)}</span>
                        <button type="button" class="quiet" on:click=move |_| out(own.clone())>{format!("Turn {name} out")}</button></li>
                    }
                }).collect_view()}</ul>
                <ol class="pairing">
                    <li><p>"Once for each device: let it trust this machine. Open "<a href=said.hand_over.clone()>{said.hand_over.clone()}</a>" on it, on the same network."</p>
                        <img class="code" src=drawn(&said.hand_over_code) alt="QR code of that address" width="240" height="240"/>
                        <p>"Both must show this fingerprint:"</p><p><code>{said.fingerprint.clone()}</code></p></li>
                    <li><p>"Then invite it:"</p>
                        <div class="acts"><button type="button" class="main" on:click=ask>"Invite a device"</button></div>
                        {move || invitation.get().map(|one| view! {
                            <p>{format!("Scan this with the device within {} minutes; it lets one in, once.", one.holds_s / 60)}</p>
                            <img class="code" src=drawn(&one.code) alt="QR code of the invitation" width="240" height="240"/>
                            <p class="invitation"><code>{one.address.clone()}</code></p>
                            <div class="acts"><button type="button" class="quiet" on:click=move |_| { invitation.set(None); look(); }>"It is in"</button></div>
                        })}</li>
                </ol>
            </section>
        })}
    }
}

fn about(device: &Device) -> String {
    let at = |text: &str| {
        let ms = js_sys::Date::parse(text);
        if ms.is_nan() { text.to_owned() } else { when(ms as u64, crate::look::minutes_west()) }
    };
    match &device.heard {
        Some(heard) => format!("paired {}, last heard {}", at(&device.paired), at(heard)),
        None => format!("paired {}, not heard since the workbench was started", at(&device.paired)),
    }
}

/// Returns a drawing as an address that a picture may have.
fn drawn(svg: &str) -> String {
    format!("data:image/svg+xml,{}", String::from(js_sys::encode_uri_component(svg)))
}
