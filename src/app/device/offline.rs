//! The page without a network: the service worker that keeps it, and the newer versions it finds.

use crate::app::device::{keys::on_visible, window};
use gloo::events::EventListener;
use js_sys::{Object, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{
    RegistrationOptions, ServiceWorkerContainer, ServiceWorkerRegistration, ServiceWorkerState,
    ServiceWorkerUpdateViaCache, console,
};
use yew::Callback;

/// Keeps the page on the device from now on, and looks for a newer version whenever the page becomes
/// visible. `on_new_version` is called when one has been fetched whole and waits to be told.
///
/// Where the browser refuses, the page still works while there is a network; the console says why.
pub fn register(on_new_version: Callback<()>) {
    spawn_local(async move {
        if let Err(error) = keep_and_watch(on_new_version).await {
            console::warn_2(&"the page is not kept on this device:".into(), &error);
        }
    });
}

/// Tells the waiting version to take over, and loads it.
pub fn take_over() {
    spawn_local(async {
        if let Err(error) = hand_over().await {
            console::warn_2(&"the newer version did not take over:".into(), &error);
        }
    });
}

async fn keep_and_watch(on_new_version: Callback<()>) -> Result<(), JsValue> {
    let options = RegistrationOptions::new();
    options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
    let registered = JsFuture::from(workers()?.register_with_options("./sw.js", &options)).await?;
    let registration: ServiceWorkerRegistration = registered.dyn_into()?;
    if newer_waits(&registration) {
        on_new_version.emit(());
    }
    watch_installs(&registration, on_new_version);
    update_when_visible(registration);
    Ok(())
}

async fn hand_over() -> Result<(), JsValue> {
    let workers = workers()?;
    let registration: ServiceWorkerRegistration = JsFuture::from(workers.ready()?).await?.dyn_into()?;
    match registration.waiting() {
        Some(worker) => {
            EventListener::once(&workers, "controllerchange", |_| reload()).forget();
            let message = Object::new();
            Reflect::set(&message, &"kind".into(), &"take-over".into())?;
            worker.post_message(&message)
        }
        // Another tab has told it already.
        None => {
            reload();
            Ok(())
        }
    }
}

fn watch_installs(registration: &ServiceWorkerRegistration, on_new_version: Callback<()>) {
    let watched = registration.clone();
    let on_found = move |_: &web_sys::Event| {
        let Some(worker) = watched.installing() else { return };
        let (registration, on_new_version) = (watched.clone(), on_new_version.clone());
        EventListener::new(&worker.clone(), "statechange", move |_| {
            if worker.state() == ServiceWorkerState::Installed && newer_waits(&registration) {
                on_new_version.emit(());
            }
        })
        .forget();
    };
    EventListener::new(registration, "updatefound", on_found).forget();
}

/// Installed pages are resumed rather than loaded, so loading alone would leave them on an old version.
fn update_when_visible(registration: ServiceWorkerRegistration) {
    let look = move || {
        let update = registration.update();
        spawn_local(async {
            // Without a network there is no newer version to see, which is no error.
            if let Ok(update) = update {
                JsFuture::from(update).await.ok();
            }
        });
    };
    on_visible(look).for_ever();
}

/// The very first worker is not an update.
fn newer_waits(registration: &ServiceWorkerRegistration) -> bool {
    registration.active().is_some() && registration.waiting().is_some()
}

/// Absent on addresses that are neither this machine's nor secured.
fn workers() -> Result<ServiceWorkerContainer, JsValue> {
    let workers = window().navigator().service_worker();
    Some(workers)
        .filter(|workers| !workers.is_undefined())
        .ok_or_else(|| "this browser offers no service worker here".into())
}

fn reload() {
    if let Err(error) = window().location().reload() {
        console::warn_1(&error);
    }
}
