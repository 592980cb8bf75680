//! Files that come in, picked, dropped on the page or opened with it, and files that are handed to the player.

use crate::app::device::window;
use gloo::events::{EventListener, EventListenerOptions};
use js_sys::{Array, Function, Promise, Reflect, Uint8Array};
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue, prelude::Closure};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, DragEvent, Event, File, FilePropertyBag, HtmlAnchorElement, HtmlInputElement, ShareData, Url};

/// A file as it was read.
pub struct Read {
    pub name: String,
    pub bytes: Vec<u8>,
}

/// Why a file did not come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotRead {
    /// Larger than the bound, in bytes.
    TooLarge,
    Unreadable,
}

/// A file that was chosen and is not read yet.
pub struct Chosen(File);

impl Chosen {
    /// Its name, with what it ends in.
    pub fn name(&self) -> String {
        self.0.name()
    }

    /// How large it is, in bytes.
    pub fn bytes(&self) -> u64 {
        self.0.size() as u64
    }

    /// The file, where it has at most so many bytes.
    ///
    /// # Errors
    /// [`NotRead::TooLarge`].
    pub fn within(self, most: usize) -> Result<Chosen, NotRead> {
        if self.0.size() > most as f64 { Err(NotRead::TooLarge) } else { Ok(self) }
    }

    /// Reads the file, where it has at most so many bytes.
    ///
    /// # Errors
    /// A [`NotRead`] that says why.
    pub async fn read(self, most: usize) -> Result<Read, NotRead> {
        let Chosen(file) = self.within(most)?;
        let buffer = JsFuture::from(file.array_buffer()).await.map_err(|_| NotRead::Unreadable)?;
        Ok(Read { name: file.name(), bytes: Uint8Array::new(&buffer).to_vec() })
    }

    pub(super) fn into_file(self) -> JsValue {
        self.0.into()
    }
}

/// The file chosen in the file field that `event` came from, where one was.
pub fn chosen(event: &Event) -> Option<Chosen> {
    let field = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok())?;
    let file = field.files()?.get(0)?;
    // The same file may be chosen again after it was mended.
    field.set_value("");
    Some(Chosen(file))
}

/// Calls `arrived` with each file that comes by itself, for as long as the page is there: dropped anywhere on it,
/// or opened with it where the system can (the File Handling API, which only some browsers have).
pub fn on_arrival(arrived: impl Fn(Chosen) + 'static) {
    let arrived = Rc::new(arrived);
    let options = EventListenerOptions::enable_prevent_default();
    // Unless both are prevented, the browser leaves the page for the file.
    EventListener::new_with_options(&window(), "dragover", options, |event| event.prevent_default()).forget();
    let dropped = Rc::clone(&arrived);
    EventListener::new_with_options(&window(), "drop", options, move |event| {
        event.prevent_default();
        let held = event.dyn_ref::<DragEvent>().and_then(DragEvent::data_transfer);
        let file = held.and_then(|held| held.files()?.get(0));
        file.map(Chosen).into_iter().for_each(|file| dropped(file));
    })
    .forget();
    let _only_some_browsers_open_files = on_launch(arrived);
}

/// Asks for the files that the page is opened with.
fn on_launch(arrived: Rc<impl Fn(Chosen) + 'static>) -> Result<(), JsValue> {
    let queue = Reflect::get(&window(), &"launchQueue".into())?;
    let set_consumer: Function = Reflect::get(&queue, &"setConsumer".into())?.dyn_into()?;
    let consumer = Closure::<dyn Fn(JsValue)>::new(move |launch: JsValue| {
        let arrived = Rc::clone(&arrived);
        spawn_local(async move {
            if let Ok(file) = launched(&launch).await {
                arrived(Chosen(file));
            }
        });
    });
    set_consumer.call1(&queue, &consumer.into_js_value())?;
    Ok(())
}

/// The first file of a launch.
async fn launched(launch: &JsValue) -> Result<File, JsValue> {
    let handle = Array::from(&Reflect::get(launch, &"files".into())?).get(0);
    let get_file: Function = Reflect::get(&handle, &"getFile".into())?.dyn_into()?;
    let file: Promise = get_file.call0(&handle)?.dyn_into()?;
    JsFuture::from(file).await?.dyn_into()
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

/// What became of a file that was offered to other programs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shared {
    Taken,
    /// The player went back, or the system refused.
    NotTaken,
}

/// The file under this name as the system's share sheet wants it; `None` where there is no such sheet or it takes no
/// file of this kind (Web Share API, W3C).
pub fn to_share(name: &str, Made(file): &Made) -> Option<ShareData> {
    let navigator = window().navigator();
    if !Reflect::has(&navigator, &"canShare".into()).unwrap_or(false) {
        return None;
    }
    let file = File::new_with_blob_sequence_and_options(&Array::of1(file), name, &kind_of(file)).ok()?;
    let data = ShareData::new();
    data.set_files(&Array::of1(&file));
    navigator.can_share_with_data(&data).then_some(data)
}

fn kind_of(file: &Blob) -> FilePropertyBag {
    let kind = FilePropertyBag::new();
    kind.set_type(&file.type_());
    kind
}

/// Opens the share sheet. It opens only from a tap, and nothing may be awaited between.
pub fn share(data: &ShareData) -> impl Future<Output = Shared> + use<> {
    let sheet = JsFuture::from(window().navigator().share_with_data(data));
    async { if sheet.await.is_ok() { Shared::Taken } else { Shared::NotTaken } }
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
