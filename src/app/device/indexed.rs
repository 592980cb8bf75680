//! IndexedDB: the copy of the journal that survives the browser being killed.

pub use idb::Error;

use crate::journal::shelf::Changes;
use idb::{Database, DatabaseEvent, Factory, ObjectStoreParams, Query, TransactionMode};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::IdbDatabase;

/// The name of the journal's database.
pub const JOURNAL: &str = "tailfirst";
const STORE: &str = "entries";

/// The open database.
pub struct Indexed(Database);

/// An open connection would go on telling of changes to closures that are gone.
impl Drop for Indexed {
    fn drop(&mut self) {
        self.0.close();
    }
}

impl Indexed {
    /// Opens the database of this name, making it on the first visit. `lost` is called when the browser takes it away: the player
    /// has cleared the site's data, or a later version of the program needs it for itself.
    ///
    /// # Errors
    /// Whatever the browser says, where it keeps no database for this page.
    pub async fn open(name: &str, lost: impl Fn() + Clone + 'static) -> Result<Indexed, Error> {
        let mut request = Factory::new()?.open(name, Some(1))?;
        request.on_upgrade_needed(|event| {
            if let Ok(database) = event.database() {
                let _refusal_shows_when_opening = database.create_object_store(STORE, ObjectStoreParams::new());
            }
        });
        let mut database = request.await?;
        let also_lost = lost.clone();
        database.on_close(move |_| lost());
        database.on_version_change(move |event| {
            // An open connection would keep the later version, or a deletion, waiting for ever.
            if let Some(database) = event.target().and_then(|target| target.dyn_into::<IdbDatabase>().ok()) {
                database.close();
            }
            also_lost();
        });
        Ok(Indexed(database))
    }

    /// All texts with their keys.
    ///
    /// # Errors
    /// Whatever the browser says.
    pub async fn read_all(&self) -> Result<Vec<(String, String)>, Error> {
        let transaction = self.0.transaction(&[STORE], TransactionMode::ReadOnly)?;
        let store = transaction.object_store(STORE)?;
        let (keys, texts) = (store.get_all_keys(None::<Query>, None)?, store.get_all(None::<Query>, None)?);
        let (keys, texts) = (keys.await?, texts.await?);
        let pairs = keys.iter().zip(&texts);
        Ok(pairs.filter_map(|(key, text)| Some((key.as_string()?, text.as_string()?))).collect())
    }

    /// Starts making the changes at once, in one transaction; the future ends when the browser has them.
    ///
    /// # Errors
    /// Whatever the browser says; then none of them was made.
    pub fn change(&self, changes: &Changes) -> impl Future<Output = Result<(), Error>> + use<> {
        let started = self.start(changes);
        async move {
            started?.await?;
            Ok(())
        }
    }

    fn start(&self, changes: &Changes) -> Result<idb::TransactionFuture, Error> {
        let transaction = self.0.transaction(&[STORE], TransactionMode::ReadWrite)?;
        let store = transaction.object_store(STORE)?;
        for (key, text) in &changes.put {
            store.put(&JsValue::from_str(text), Some(&JsValue::from_str(key)))?;
        }
        for key in &changes.remove {
            store.delete(Query::Key(JsValue::from_str(key)))?;
        }
        Ok(transaction.commit()?.into_future())
    }
}

/// Deletes a database, whoever has it open.
///
/// # Errors
/// Whatever the browser says.
pub async fn delete(name: &str) -> Result<(), Error> {
    Factory::new()?.delete(name)?.await
}
