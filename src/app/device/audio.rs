//! The click and the bell, on the audio clock.

use crate::{app::device::clock::steady_seconds, pulse::schedule::Clicks};
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    AudioBuffer, AudioBufferSourceNode, AudioContext, AudioContextState, BaseAudioContext, OfflineAudioContext,
};

/// How often, in ms, the caller looks for clicks to hand over: far more often than how far ahead they are handed over.
pub const TICK_MS: u32 = 50;
/// Length of a click in seconds.
const CLICK: f32 = 0.03;
/// Length of the bell in seconds.
const BELL: f32 = 1.6;

/// The device's sound. A device without sound keeps the same clock going, so that the pulse can
/// still be seen.
pub struct Audio {
    context: Option<AudioContext>,
    strong: Option<AudioBuffer>,
    weak: Option<AudioBuffer>,
}

impl Audio {
    /// Opens the sound; to be called in a tap, or the browser keeps it silent.
    pub fn open() -> Self {
        let context = AudioContext::new().ok();
        let voice = |pitch| context.as_ref().and_then(|context| tone(context, pitch, CLICK, 0.5).ok());
        let (strong, weak) = (voice(1760.0), voice(1175.0));
        Audio { context, strong, weak }
    }

    /// Starts the clock of the sound where it stands still; browsers allow it in a tap.
    pub fn wake(&self) {
        if let Some(context) = &self.context
            && context.state() != AudioContextState::Running
        {
            let _starts_when_it_can = context.resume();
        }
    }

    /// Seconds from the clock to the ear: what is seen is drawn this much later.
    pub fn latency(&self) -> f64 {
        let told =
            self.context.as_ref().and_then(|context| js_sys::Reflect::get(context, &"outputLatency".into()).ok());
        told.and_then(|told| told.as_f64()).filter(|seconds| seconds.is_finite()).unwrap_or(0.0).clamp(0.0, 0.5)
    }

    /// Rings the bell that calls back from a rest.
    pub fn ring(&self) {
        if let Some(context) = self.running()
            && let Ok(buffer) = tone(context, 660.0, BELL, 0.4)
        {
            let _a_silent_bell_is_seen = play(context, &buffer, context.current_time());
        }
    }

    fn running(&self) -> Option<&AudioContext> {
        self.context.as_ref().filter(|context| context.state() == AudioContextState::Running)
    }
}

impl Drop for Audio {
    fn drop(&mut self) {
        if let Some(context) = &self.context {
            let _closed_or_gone_already = context.close();
        }
    }
}

/// Clicks sound on the audio clock, each on its nearest sample; while that does not run, the device's own clock goes
/// on in silence.
impl Clicks for Rc<Audio> {
    type Handle = AudioBufferSourceNode;

    fn now(&self) -> f64 {
        self.running().map_or_else(steady_seconds, |context| context.current_time())
    }

    fn click_at(&self, at: f64, accent: bool) -> Option<AudioBufferSourceNode> {
        let context = self.running()?;
        let buffer = if accent { &self.strong } else { &self.weak };
        play(context, buffer.as_ref()?, at).ok()
    }

    fn call_off(&self, click: &AudioBufferSourceNode) {
        #[allow(deprecated, reason = "the only binding of AudioScheduledSourceNode.stop here")]
        let _over_already = click.stop();
    }
}

/// A sine of `pitch` Hz that dies away within `seconds`: loud at its very first sample, so that
/// the click is where it begins.
fn tone(context: &BaseAudioContext, pitch: f32, seconds: f32, loudness: f32) -> Result<AudioBuffer, JsValue> {
    let rate = context.sample_rate();
    let count = (seconds * rate) as usize;
    let samples: Vec<f32> = (0..count)
        .map(|index| {
            let (time, left) = (index as f32 / rate, 1.0 - index as f32 / count as f32);
            // The browser's cosine: our own would make the download larger.
            let wave = js_sys::Math::cos(f64::from(std::f32::consts::TAU * pitch * time)) as f32;
            loudness * left.powi(4) * wave
        })
        .collect();
    let buffer = context.create_buffer(1, count as u32, rate)?;
    buffer.copy_to_channel(&samples, 0)?;
    Ok(buffer)
}

fn play(context: &BaseAudioContext, buffer: &AudioBuffer, at: f64) -> Result<AudioBufferSourceNode, JsValue> {
    let source = context.create_buffer_source()?;
    source.set_buffer(Some(buffer));
    source.connect_with_audio_node(context.destination().unchecked_ref())?;
    let rate = f64::from(context.sample_rate());
    source.start_with_when((at * rate).round() / rate)?;
    Ok(source)
}

/// Samples a second at which [`rendered_clicks`] renders.
pub const RENDERED_RATE: f64 = 44_100.0;

/// Renders clicks at these seconds, as a click is handed over, and tells on which sample
/// each begins; `None` for one that is not there. They must be further apart than a click is long.
///
/// # Errors
/// Whatever the browser says where it renders no sound.
pub async fn rendered_clicks(at: &[f64]) -> Result<Vec<Option<u32>>, JsValue> {
    let length = at.iter().fold(0.0_f64, |latest, at| latest.max(*at)) + 0.5;
    let frames = (length * RENDERED_RATE) as u32;
    let context =
        OfflineAudioContext::new_with_number_of_channels_and_length_and_sample_rate(1, frames, RENDERED_RATE as f32)?;
    let buffer = tone(&context, 1760.0, CLICK, 0.5)?;
    for at in at {
        play(&context, &buffer, *at)?;
    }
    let rendered: AudioBuffer = JsFuture::from(context.start_rendering()?).await?.unchecked_into();
    let samples = rendered.get_channel_data(0)?;
    let begins = |index: &usize| samples[*index] != 0.0 && (*index == 0 || samples[index - 1] == 0.0);
    let begun: Vec<u32> = (0..samples.len()).filter(begins).map(|index| index as u32).collect();
    let near = |at: &f64| {
        let wanted = at * RENDERED_RATE;
        begun.iter().copied().min_by(|a, b| (f64::from(*a) - wanted).abs().total_cmp(&(f64::from(*b) - wanted).abs()))
    };
    Ok(at.iter().map(near).collect())
}
