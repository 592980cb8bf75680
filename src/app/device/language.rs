//! The language of the page: the first of the device's that the program speaks, fetched before anything is said.

use crate::{
    app::device::window,
    words::{
        self,
        catalogue::{self, Language},
    },
};
use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;

/// Speaks it from now on. Where its words cannot be fetched, the page speaks English.
pub async fn speak_as_the_device() {
    let wanted: Vec<String> = window().navigator().languages().iter().filter_map(|code| code.as_string()).collect();
    let Some(code) = words::spoken(wanted.iter().map(String::as_str), &words::SERVED) else { return };
    if let Ok(Some(file)) = text_of(&format!("words/{code}.txt")).await {
        catalogue::speak(Language::read(&file));
        let root = window().document().and_then(|document| document.document_element());
        root.into_iter().for_each(|root| _ = root.set_attribute("lang", code));
    }
}

/// The text of a file of this page; `None` where there is no such file.
async fn text_of(address: &str) -> Result<Option<String>, JsValue> {
    let response = JsFuture::from(window().fetch_with_str(address)).await?;
    if !Reflect::get(&response, &"ok".into())?.is_truthy() {
        return Ok(None);
    }
    let text: Function = Reflect::get(&response, &"text".into())?.dyn_into()?;
    let text: Promise = text.call0(&response)?.dyn_into()?;
    Ok(JsFuture::from(text).await?.as_string())
}
