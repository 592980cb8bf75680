//! The worker beside the page: each message is a task, each of its own an answer. The first says that it is there.

#[cfg(target_arch = "wasm32")]
fn main() {
    use js_sys::{Uint8Array, global};
    use tailfirst::workshop::work;
    use wasm_bindgen::{JsCast, UnwrapThrowExt, prelude::Closure};
    use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

    let scope: DedicatedWorkerGlobalScope = global().unchecked_into();
    let to_page = scope.clone();
    let say = move |bytes: &[u8]| to_page.post_message(&Uint8Array::from(bytes)).unwrap_throw();
    say(&[]);
    let on_task = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| {
        let task = Uint8Array::new(&message.data()).to_vec();
        work(&task, &mut |answer| say(&answer.sent()));
    });
    scope.set_onmessage(Some(on_task.as_ref().unchecked_ref()));
    on_task.forget();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("the worker runs beside the page in a browser; `cargo run` packs and serves both");
}
