//! The least page of the same stack: a heading drawn by yew. What the program takes to open is held against it.

#[cfg(target_arch = "wasm32")]
fn main() {
    use yew::prelude::*;

    #[component]
    fn Empty() -> Html {
        html! { <main class="page"><h1>{ "Empty" }</h1></main> }
    }

    yew::Renderer::<Empty>::new().render();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("the empty page runs in a browser; `cargo bench -- opening` serves it");
}
