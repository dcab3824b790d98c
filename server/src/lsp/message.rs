//! Bodies into messages.

use std::borrow::Cow;

use serde_json::Value;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

/// What a client says.
#[derive(Debug, PartialEq)]
pub enum Message {
    /// A request or a notification.
    Request(Request),
    /// The answer to a request of ours.
    Reply(Response),
}

/// A message that cannot be read: what is told the client, under the id of its request where that could be made out.
pub type Refusal = Box<(Id, Error)>;

/// Reads one body.
///
/// A client may cut a character above U+FFFF in two and send half of it, as a lone surrogate that no UTF-8 text can
/// hold. Each half is read as U+FFFD, which is as wide, so that the edits behind it still fall into their places.
pub fn read(body: &[u8]) -> Result<Message, Refusal> {
    let body = without_lone_surrogates(body);
    if let Ok(request) = serde_json::from_slice::<Request>(&body)
        && !request.method().is_empty()
    {
        return Ok(Message::Request(without_needless_params(request)));
    }
    if let Ok(reply) = serde_json::from_slice::<Response>(&body) {
        return Ok(Message::Reply(reply));
    }
    match serde_json::from_slice::<Value>(&body) {
        Ok(value) => {
            let id = value.get("id").and_then(|id| serde_json::from_value(id.clone()).ok()).unwrap_or_default();
            Err(Box::new((id, Error::invalid_request())))
        }
        Err(fault) => {
            let mut error = Error::parse_error();
            error.message = Cow::Owned(format!("Parse error: {fault}"));
            Err(Box::new((Id::Null, error)))
        }
    }
}

/// Some clients say that they have no parameters by `null` or, at `shutdown`, by an empty object (the two of Emacs do), which the
/// protocol crate takes for parameters that should not be there.
fn without_needless_params(request: Request) -> Request {
    if request.params() != Some(&Value::Null) && request.method() != "shutdown" {
        return request;
    }
    let (method, id, _) = request.into_parts();
    match id {
        Some(id) => Request::build(method).id(id).finish(),
        None => Request::build(method).finish(),
    }
}

fn without_lone_surrogates(body: &[u8]) -> Cow<'_, [u8]> {
    let Ok(text) = str::from_utf8(body) else { return Cow::Borrowed(body) };
    // `\ud83e` and the like are the only ones; nearly no body has any.
    if !text.contains("\\ud") && !text.contains("\\uD") {
        return Cow::Borrowed(body);
    }
    let mut repaired = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('\\') {
        let (before, escape) = rest.split_at(at);
        repaired.push_str(before);
        let unit = surrogate(escape);
        let length = match unit {
            Some(0xD800..=0xDBFF) if matches!(escape.get(6..).and_then(surrogate), Some(0xDC00..=0xDFFF)) => 12,
            Some(_) => 6,
            None => escape.chars().take(2).map(char::len_utf8).sum(),
        };
        let (escape, behind) = escape.split_at_checked(length).unwrap_or((escape, ""));
        repaired.push_str(if unit.is_some() && length == 6 { "\\ufffd" } else { escape });
        rest = behind;
    }
    repaired.push_str(rest);
    Cow::Owned(repaired.into_bytes())
}

/// The surrogate that an escape at the start of `text` stands for.
fn surrogate(text: &str) -> Option<u32> {
    let digits = text.strip_prefix("\\u")?.get(..4)?;
    u32::from_str_radix(digits, 16).ok().filter(|unit| (0xD800..=0xDFFF).contains(unit))
}

#[cfg(test)]
mod tests {
    use serde_json::json;
    use tower_lsp::jsonrpc::ErrorCode;

    use super::*;

    fn text_of(body: &str) -> String {
        let Ok(Message::Request(request)) = read(body.as_bytes()) else { panic!("{body} is a request") };
        request.params().unwrap()["t"].as_str().unwrap().to_string()
    }

    #[test]
    fn halves_of_characters_are_read_as_replacement_characters() {
        for (escaped, expected) in [
            (r"plain \\ud83e \u00e9", "plain \\ud83e é"),
            (r"\ud83e\udd5a whole", "🥚 whole"),
            (r"\ud83e half", "\u{fffd} half"),
            (r"\udd5a half", "\u{fffd} half"),
            (r"\uD83E\n\\\uDD5A", "\u{fffd}\n\\\u{fffd}"),
            (r"\ud83e\ud83e\udd5a", "\u{fffd}🥚"),
        ] {
            let body = format!(r#"{{"jsonrpc":"2.0","method":"m","params":{{"t":"{escaped}"}}}}"#);
            assert_eq!(text_of(&body), expected);
        }
    }

    #[test]
    fn what_is_no_message_is_refused_under_its_own_id() {
        let refused = |body: &[u8]| read(body).map_err(|refusal| (refusal.0, refusal.1.code)).unwrap_err();
        assert_eq!(refused(b"{\"jsonrpc\":"), (Id::Null, ErrorCode::ParseError));
        assert_eq!(refused(b"\xff\xfe"), (Id::Null, ErrorCode::ParseError));
        assert_eq!(refused(b"\"\\ud"), (Id::Null, ErrorCode::ParseError));
        assert_eq!(refused(b""), (Id::Null, ErrorCode::ParseError));
        assert_eq!(refused(b"[]"), (Id::Null, ErrorCode::InvalidRequest));
        assert_eq!(refused(br#"{"id":7,"method":"x"}"#), (Id::Number(7), ErrorCode::InvalidRequest));
        assert_eq!(refused(br#"{"jsonrpc":"2.0","id":"a"}"#), (Id::String("a".into()), ErrorCode::InvalidRequest));
    }

    #[test]
    fn answers_are_told_from_requests() {
        let reply = read(br#"{"jsonrpc":"2.0","id":3,"result":null}"#);
        assert_eq!(reply, Ok(Message::Reply(Response::from_ok(3.into(), json!(null)))));
        let request = read(br#"{"jsonrpc":"2.0","id":3,"method":"shutdown"}"#);
        assert_eq!(request, Ok(Message::Request(Request::build("shutdown").id(3).finish())));
    }

    #[test]
    fn parameters_that_say_nothing_are_none() {
        for params in ["null", "{}", "[]"] {
            let body = format!(r#"{{"jsonrpc":"2.0","id":3,"method":"shutdown","params":{params}}}"#);
            assert_eq!(read(body.as_bytes()), Ok(Message::Request(Request::build("shutdown").id(3).finish())));
        }
        let notification = read(br#"{"jsonrpc":"2.0","method":"exit","params":null}"#);
        assert_eq!(notification, Ok(Message::Request(Request::build("exit").finish())));
    }
}
