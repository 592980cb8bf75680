//! What the reader makes of real scores, of hard cases in small ones, and of files that are no scores.

mod any_bytes;
mod long;
mod outside;
mod printed;
mod real;
mod said;
mod sounding;
mod texts;
mod whole;

const POLONAISE_1: &[u8] = include_bytes!("polonaise_op1n1.mxl");
const POLONAISE_3: &[u8] = include_bytes!("polonaise_op1n3.mxl");
const ALOHA_OE: &[u8] = include_bytes!("aloha_oe.mxl");
