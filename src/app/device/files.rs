//! Files that the player picks and files that are handed to the player.

use crate::app::device::window;
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, Event, File, HtmlAnchorElement, HtmlInputElement, Url};

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

/// A file that was chosen and is not read yet.
pub struct Chosen(File);

impl Chosen {
    /// How large it is, in bytes.
    pub fn bytes(&self) -> u64 {
        self.0.size() as u64
    }

    pub(super) fn into_file(self) -> JsValue {
        self.0.into()
    }
}

/// The file chosen in the file field that `event` came from, of at most so many bytes.
///
/// # Errors
/// A [`NotPicked`] that says why.
pub fn chosen(event: &Event, most: usize) -> Result<Chosen, NotPicked> {
    let field = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
    let field = field.ok_or(NotPicked::Nothing)?;
    let file = field.files().and_then(|files| files.get(0)).ok_or(NotPicked::Nothing)?;
    // The same file may be chosen again after it was mended.
    field.set_value("");
    if file.size() > most as f64 { Err(NotPicked::TooLarge) } else { Ok(Chosen(file)) }
}

/// Reads the file chosen in the file field that `event` came from. A file of more than `most`
/// bytes is not read.
///
/// # Errors
/// A [`NotPicked`] that says why.
pub async fn picked(event: Event, most: usize) -> Result<Picked, NotPicked> {
    let Chosen(file) = chosen(&event, most)?;
    let buffer = JsFuture::from(file.array_buffer()).await.map_err(|_| NotPicked::Unreadable)?;
    Ok(Picked { name: file.name(), bytes: Uint8Array::new(&buffer).to_vec() })
}

/// A file that was made.
pub struct Made(pub(super) Blob);

impl Made {
    /// A file of this text.
    ///
    /// # Errors
    /// Whatever the browser says where it makes no file.
    pub fn of(text: &str) -> Result<Made, JsValue> {
        Blob::new_with_str_sequence(&Array::of1(&JsValue::from_str(text))).map(Made)
    }
}

/// Hands a file to the player under this name.
///
/// # Errors
/// Whatever the browser says where it makes no file.
pub fn hand_out(name: &str, Made(file): &Made) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(file)?;
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
