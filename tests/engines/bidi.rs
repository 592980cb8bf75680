//! WebDriver BiDi (W3C): commands as JSON over a WebSocket, each answered under its number.

use futures_util::{SinkExt, StreamExt};
use serde_json::{Value, json};
use tokio::{net::TcpStream, sync::Mutex};
use tokio_tungstenite::{MaybeTlsStream, WebSocketStream, connect_async, tungstenite::Message};

/// One connection. One command is under way at a time.
pub struct Line(Mutex<(u64, WebSocketStream<MaybeTlsStream<TcpStream>>)>);

impl Line {
    /// Connects to `ws://…/session`.
    pub async fn to(address: &str) -> Line {
        let (socket, _) = connect_async(address).await.unwrap_or_else(|error| panic!("no line to {address}: {error}"));
        Line(Mutex::new((0, socket)))
    }

    /// What the browser answers to a command; what it tells besides is passed over.
    pub async fn ask(&self, method: &str, params: Value) -> Value {
        let (last, socket) = &mut *self.0.lock().await;
        *last += 1;
        let command = json!({ "id": last, "method": method, "params": params });
        socket.send(Message::text(command.to_string())).await.expect("sent");
        loop {
            let told = socket.next().await.expect("the line is open").expect("a message");
            let Ok(mut told) = serde_json::from_slice::<Value>(&told.into_data()) else { continue };
            if told["id"] == *last {
                assert!(told["type"] == "success", "{method}: {told}");
                return told["result"].take();
            }
        }
    }
}
