//! Workers beside the page: one for each task, ended when it is done or no longer wanted.

use crate::app::device::{
    files::{Chosen, Made},
    window,
};
use gloo::events::EventListener;
use js_sys::{Array, Uint8Array};
use std::cell::Cell;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, MessageEvent, Worker, WorkerOptions, WorkerType};

/// A worker at its task. Dropping it cancels the task.
pub struct Work {
    worker: Worker,
    _heard: [EventListener; 2],
}

impl Drop for Work {
    fn drop(&mut self) {
        self.worker.terminate();
    }
}

/// What comes from a worker.
pub enum Message {
    /// An answer to the task.
    Answer(Vec<u8>),
    /// A file that it has made.
    Made(Made),
    /// It could not be loaded or has broken down.
    Stopped,
}

/// Starts a worker and gives it the task with its file as soon as it is there. `hear` gets each of its messages.
///
/// # Errors
/// Whatever the browser says where it starts no worker at all.
pub fn begin(task: Vec<u8>, file: Option<Chosen>, hear: impl Fn(Message) + Clone + 'static) -> Result<Work, JsValue> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(&address()?, &options)?;
    let task = Array::of2(&Uint8Array::from(&*task).buffer(), &file.map_or(JsValue::UNDEFINED, Chosen::into_file));
    let (to_worker, task, hear_end) = (worker.clone(), Cell::new(Some(task)), hear.clone());
    let on_message = EventListener::new(&worker, "message", move |event| {
        let Some(message) = event.dyn_ref::<MessageEvent>().map(MessageEvent::data) else { return };
        match task.take() {
            // The first message only says that the worker is there.
            Some(task) => {
                if to_worker.post_message_with_transfer(&task, &Array::of1(&task.get(0))).is_err() {
                    hear(Message::Stopped);
                }
            }
            None => hear(match message.dyn_into() {
                Ok(file) => Message::Made(Made(file)),
                Err(message) => Message::Answer(Uint8Array::new(&message).to_vec()),
            }),
        }
    });
    let on_error = EventListener::new(&worker, "error", move |_| hear_end(Message::Stopped));
    Ok(Work { worker, _heard: [on_message, on_error] })
}

/// The start page names the worker's file, since its name changes with its contents.
fn address() -> Result<String, JsValue> {
    let root = window().document().and_then(|document| document.document_element());
    let root = root.and_then(|root| root.dyn_into::<HtmlElement>().ok());
    root.and_then(|root| root.dataset().get("worker")).ok_or_else(|| "the page names no worker".into())
}
