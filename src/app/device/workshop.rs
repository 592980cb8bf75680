//! Workers beside the page: one for each task, ended when it is done or no longer wanted.

use crate::app::device::window;
use gloo::events::EventListener;
use js_sys::Uint8Array;
use std::cell::Cell;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, MessageEvent, Worker, WorkerOptions, WorkerType};

/// A worker at its task. To drop it is to call the task off.
pub struct Work {
    worker: Worker,
    _heard: [EventListener; 2],
}

impl Drop for Work {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

/// Starts a worker and gives it the task as soon as it is there. `hear` gets each of its messages, and `None` where it
/// could not be loaded or has broken down.
///
/// # Errors
/// Whatever the browser says where it starts no worker at all.
pub fn begin(task: Vec<u8>, hear: impl Fn(Option<Vec<u8>>) + Clone + 'static) -> Result<Work, JsValue> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&address()?, &options)?;
    let (to_worker, task, hear_end) = (worker.clone(), Cell::new(Some(task)), hear.clone());
    let on_message = EventListener::new(&worker, "message", move |event| {
        let Some(message) = event.dyn_ref::<MessageEvent>() else { return };
        let message = Uint8Array::new(&message.data());
        match task.take() {
            // The first message only says that the worker is there.
            Some(task) if to_worker.post_message(&Uint8Array::from(&*task)).is_err() => hear(None),
            Some(_) => {}
            None => hear(Some(message.to_vec())),
        }
    });
    let on_error = EventListener::new(&worker, "error", move |_| hear_end(None));
    Ok(Work { worker, _heard: [on_message, on_error] })
}

/// The start page names the worker's file, since its name changes with its contents.
fn address() -> Result<String, JsValue> {
    let root = window().document().and_then(|document| document.document_element());
    let root = root.and_then(|root| root.dyn_into::<HtmlElement>().ok());
    root.and_then(|root| root.dataset().get("worker")).ok_or_else(|| "the page names no worker".into())
}
