//! The page, as browsers load it.

#[cfg(target_arch = "wasm32")]
fn main() {
    tailfirst::app::start();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("the page runs in a browser; `cargo run` packs and serves it");
}
