//! What was there before the last import, in a database of its own, so that opening does not read it.

use crate::{
    app::device::indexed::{Error, Indexed},
    clock::Moment,
    journal::shelf::{Changes, Texts},
};

/// The name of the database.
pub const NAME: &str = "tailfirst-before";
/// The key of when it was kept.
const KEPT: &str = "kept";

/// Keeps these texts, with when that was, in the place of what was kept before.
///
/// # Errors
/// Whatever the browser says.
pub async fn keep(texts: Vec<(String, String)>, now: Moment) -> Result<(), Error> {
    let database = Indexed::open(NAME, || ()).await?;
    // Where these are refused, what was kept before an earlier import is not offered in their place.
    database.change(&Changes { put: Vec::new(), remove: vec![KEPT.into()] }).await?;
    let old = database.read_all().await?.into_iter().map(|(key, _)| key);
    let put: Texts = texts.into_iter().chain([(KEPT.into(), now.to_string())]).collect();
    let remove = old.filter(|key| !put.contains_key(key)).collect();
    database.change(&Changes { put: put.into_iter().collect(), remove }).await
}

/// What was kept.
pub async fn read() -> Option<Texts> {
    let texts = Indexed::open(NAME, || ()).await.ok()?.read_all().await.ok()?;
    Some(texts.into_iter().collect()).filter(|texts: &Texts| texts.contains_key(KEPT))
}

/// When it was kept.
pub async fn kept() -> Option<Moment> {
    read().await?.get(KEPT)?.parse().ok()
}
