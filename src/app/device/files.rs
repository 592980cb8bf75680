//! Files that the player picks and files that are handed to the player.

use crate::app::device::window;
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, Event, HtmlAnchorElement, HtmlInputElement, Url};

/// A file as it was picked.
pub struct Picked {
    pub name: String,
    pub bytes: Vec<u8>,
}

/// Why a picked file did not come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotPicked {
    Nothing,
    /// Larger than the bound, in bytes.
    TooLarge,
    Unreadable,
}

/// Reads the file chosen in the file field that `event` came from. A file of more than `most`
/// bytes is not read.
///
/// # Errors
/// A [`NotPicked`] that says why.
pub async fn picked(event: Event, most: usize) -> Result<Picked, NotPicked> {
    let field =
        event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok()).ok_or(NotPicked::Nothing)?;
    let file = field.files().and_then(|files| files.get(0)).ok_or(NotPicked::Nothing)?;
    if file.size() > most as f64 {
        return Err(NotPicked::TooLarge);
    }
    let buffer = JsFuture::from(file.array_buffer()).await.map_err(|_| NotPicked::Unreadable)?;
    // The same file may be picked again after it was mended.
    field.set_value("");
    Ok(Picked { name: file.name(), bytes: Uint8Array::new(&buffer).to_vec() })
}

/// Hands `text` to the player as a file; to be called in the tap itself.
///
/// # Errors
/// Whatever the browser says where it makes no file.
pub fn hand_out(name: &str, text: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type("application/json");
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&JsValue::from_str(text)), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let document = window().document().ok_or(JsValue::NULL)?;
    let link: HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // The browser reads the address after this task; a minute is plenty.
    gloo::timers::callback::Timeout::new(60_000, move || {
        let _gone_already = Url::revoke_object_url(&address);
    })
    .forget();
    Ok(())
}
