//! The microphone: its samples as they are, without what telephones do to speech, handed on in short pieces.

use js_sys::{Array, Float32Array, Object, Reflect};
use leptos::prelude::*;
use sounding::RATE_HZ;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    AudioContext, AudioContextOptions, AudioWorkletNode, DomException, MediaStream, MediaStreamConstraints,
    MediaStreamTrack, MessageEvent,
};

/// A microphone that is on. It is turned off when this is dropped.
pub struct Microphone {
    context: AudioContext,
    stream: MediaStream,
    node: AudioWorkletNode,
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _ended: Closure<dyn FnMut()>,
}

impl Drop for Microphone {
    fn drop(&mut self) {
        // A piece that is on its way still would find nobody to take it.
        if let Ok(port) = self.node.port() {
            port.set_onmessage(None);
        }
        for track in tracks(&self.stream) {
            track.set_onended(None);
            track.stop();
        }
        // A context that is closed already has nothing more to close.
        let _ = self.context.close();
    }
}

fn tracks(stream: &MediaStream) -> Vec<MediaStreamTrack> {
    stream.get_audio_tracks().iter().filter_map(|track| track.dyn_into().ok()).collect()
}

impl Microphone {
    /// Asks for the microphone and turns it on; `heard` gets its samples at the engine's rate, `ended` is called when it is
    /// taken away.
    ///
    /// # Errors
    /// One sentence that says why there is none, and what can be done.
    pub async fn open(mut heard: impl FnMut(&[f32]) + 'static, ended: impl Fn() + 'static) -> Result<Self, String> {
        if !window().is_secure_context() {
            return Err("The browser gives the microphone only to pages that came over a secure connection (https) or from this device itself.".to_owned());
        }
        let devices = window()
            .navigator()
            .media_devices()
            .map_err(|_| "This browser gives no page the microphone.".to_owned())?;
        let wanted = MediaStreamConstraints::new();
        let plain = Object::new();
        for (name, value) in [
            // Each of these is made for speech and takes a blow for noise.
            ("echoCancellation", JsValue::FALSE),
            ("noiseSuppression", JsValue::FALSE),
            ("autoGainControl", JsValue::FALSE),
            ("channelCount", 1.into()),
        ] {
            let _ = Reflect::set(&plain, &name.into(), &value);
        }
        wanted.set_audio(&plain);
        let asked = devices.get_user_media_with_constraints(&wanted).map_err(|fault| refusal(&fault))?;
        let stream: MediaStream = JsFuture::from(asked)
            .await
            .map_err(|fault| refusal(&fault))?
            .dyn_into()
            .map_err(|fault| refusal(&fault))?;
        let opened = Self::connect(&stream).await;
        let (context, node) = match opened {
            Ok(both) => both,
            Err(fault) => {
                tracks(&stream).iter().for_each(MediaStreamTrack::stop);
                return Err(refusal(&fault));
            }
        };
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            if let Ok(samples) = event.data().dyn_into::<Float32Array>() {
                heard(&samples.to_vec());
            }
        });
        if let Ok(port) = node.port() {
            port.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        }
        let ended = Closure::<dyn FnMut()>::new(ended);
        for track in tracks(&stream) {
            track.set_onended(Some(ended.as_ref().unchecked_ref()));
        }
        Ok(Self { context, stream, node, _heard: heard, _ended: ended })
    }

    async fn connect(stream: &MediaStream) -> Result<(AudioContext, AudioWorkletNode), JsValue> {
        let settings = AudioContextOptions::new();
        #[expect(clippy::cast_precision_loss, reason = "48 000 is exact")]
        settings.set_sample_rate(RATE_HZ as f32);
        let context = AudioContext::new_with_context_options(&settings)?;
        JsFuture::from(context.audio_worklet()?.add_module(&ear_address()?)?).await?;
        let source = context.create_media_stream_source(stream)?;
        let node = AudioWorkletNode::new(&context, "ear")?;
        source.connect_with_audio_node(&node)?;
        JsFuture::from(context.resume()?).await?;
        Ok((context, node))
    }
}

/// Returns where the ear lies: beside the script that started the page, whose address names the build.
fn ear_address() -> Result<String, JsValue> {
    let script = document().query_selector("script[src$='/start.js']")?;
    let address = script.and_then(|script| script.get_attribute("src"));
    let address = address.ok_or_else(|| JsValue::from_str("the page does not say where it came from"))?;
    Ok(address.replace("/start.js", "/ear.js"))
}

/// Returns why there is no microphone, in a sentence; the names are those of W3C, Media Capture and Streams, §10.2.
fn refusal(fault: &JsValue) -> String {
    let name = fault.dyn_ref::<DomException>().map(DomException::name).unwrap_or_default();
    match name.as_str() {
        "NotAllowedError" | "SecurityError" => {
            "The browser was not allowed the microphone. Allow it for this page in the browser’s settings, then listen again."
                .to_owned()
        }
        "NotFoundError" | "OverconstrainedError" => {
            "No microphone was found on this device. Plug one in, or record elsewhere and give the file as a talk-through."
                .to_owned()
        }
        "NotReadableError" | "AbortError" => {
            "The microphone is there but cannot be used; another program may hold it.".to_owned()
        }
        _ => format!(
            "The microphone could not be opened ({}).",
            fault.dyn_ref::<DomException>().map_or_else(
                || Array::of1(fault).join(" ").as_string().unwrap_or_default(),
                DomException::message
            )
        ),
    }
}
