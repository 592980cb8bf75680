//! The worker beside the page. Each message to it is a task with its file; each message from it is an answer or a file
//! that it has made. The first says that it has started.

#[cfg(target_arch = "wasm32")]
fn main() {
    browser::listen();
}

#[cfg(target_arch = "wasm32")]
mod browser {
    use js_sys::{Array, Uint8Array, global};
    use std::io::{self, BufReader, BufWriter, Read, Write};
    use tailfirst::workshop::{Files, work};
    use wasm_bindgen::{JsCast, JsValue, UnwrapThrowExt, prelude::Closure};
    use web_sys::{Blob, BlobPropertyBag, DedicatedWorkerGlobalScope, File, FileReaderSync, MessageEvent};

    /// How much of a file is read or written at once, in bytes.
    const AT_ONCE: usize = 1 << 20;

    pub fn listen() {
        let scope: DedicatedWorkerGlobalScope = global().unchecked_into();
        let to_page = scope.clone();
        let say = move |message: &JsValue| to_page.post_message(message).unwrap_throw();
        say(&Uint8Array::from(&[][..]));
        let on_task = Closure::<dyn Fn(MessageEvent)>::new(move |message: MessageEvent| {
            let message: Array = message.data().unchecked_into();
            let task = Uint8Array::new(&message.get(0)).to_vec();
            let mut given =
                BufReader::with_capacity(AT_ONCE, Given { file: message.get(1).dyn_into().ok(), read: 0.0 });
            let mut made = BufWriter::with_capacity(AT_ONCE, Made { parts: Array::new(), hand_out: &say });
            let files = Files { given: &mut given, made: &mut made };
            work(&task, files, &mut |answer| say(&Uint8Array::from(&*answer.sent())));
        });
        scope.set_onmessage(Some(on_task.as_ref().unchecked_ref()));
        on_task.forget();
    }

    fn refused(_: JsValue) -> io::Error {
        io::Error::other("the browser refuses")
    }

    /// The file that the player picked, read as it is needed.
    struct Given {
        file: Option<File>,
        read: f64,
    }

    impl Read for Given {
        fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
            let Some(file) = &self.file else { return Ok(0) };
            let end = self.read + into.len() as f64;
            let part = file.slice_with_f64_and_f64(self.read, end).map_err(refused)?;
            let bytes = FileReaderSync::new().and_then(|reader| reader.read_as_array_buffer(&part)).map_err(refused)?;
            let bytes = Uint8Array::new(&bytes);
            let length = bytes.length() as usize;
            bytes.copy_to(&mut into[..length]);
            self.read += length as f64;
            Ok(length)
        }
    }

    /// The file that is made, in parts that the browser keeps out of this program's memory.
    struct Made<F> {
        parts: Array,
        hand_out: F,
    }

    impl<F: Fn(&JsValue)> Write for Made<F> {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            let part = Blob::new_with_u8_array_sequence(&Array::of1(&Uint8Array::from(bytes))).map_err(refused)?;
            self.parts.push(&part);
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            let options = BlobPropertyBag::new();
            options.set_type("application/json");
            let whole = Blob::new_with_blob_sequence_and_options(&self.parts, &options).map_err(refused)?;
            (self.hand_out)(&whole);
            Ok(())
        }
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("the worker runs beside the page in a browser; `cargo run` packs and serves both");
}
