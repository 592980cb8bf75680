//! stub
use serde::{Deserialize, Serialize};
/// When the click is heard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Click {
    #[default]
    Always,
    CountIn,
    Never,
}
