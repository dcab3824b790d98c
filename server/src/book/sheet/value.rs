//! Reads the tables out of a parsed style sheet, with what is wrong told apart and placed.
//!
//! The reader that comes with the TOML crate tells both in one English sentence for programmers. This one keeps which key, which
//! word and what was expected, so that the sheet can say it to an editor.

use std::fmt;

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeSeed, EnumAccess, Error as _, Expected, MapAccess, SeqAccess, Unexpected, VariantAccess, Visitor,
};
use serde::{Deserializer, forward_to_deserialize_any};
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

use crate::text::Span;

/// What is wrong with a value or a key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wrong {
    /// No key of this name belongs here.
    Key { expected: &'static [&'static str] },
    /// The word is none of those that may stand here.
    Word { word: String, expected: &'static [&'static str] },
    /// Something else belongs here: `a number`.
    Kind { expected: &'static str },
    /// Anything else.
    Other(String),
}

/// What is wrong, under which keys, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    pub wrong: Wrong,
    /// From the outermost table to the key itself.
    pub path: Vec<String>,
    pub span: Option<Span>,
}

impl Misread {
    fn new(wrong: Wrong) -> Self {
        Misread { wrong, path: Vec::new(), span: None }
    }

    fn at(mut self, span: std::ops::Range<usize>) -> Self {
        self.span = self.span.or(Some(Span::new(span.start, span.end)));
        self
    }

    fn below(mut self, key: &str) -> Self {
        self.path.insert(0, key.to_owned());
        self
    }
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.wrong)
    }
}

impl std::error::Error for Misread {}

impl serde::de::Error for Misread {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Misread::new(Wrong::Other(message.to_string()))
    }

    fn unknown_field(_: &str, expected: &'static [&'static str]) -> Self {
        Misread::new(Wrong::Key { expected })
    }

    fn unknown_variant(word: &str, expected: &'static [&'static str]) -> Self {
        Misread::new(Wrong::Word { word: word.to_owned(), expected })
    }

    fn invalid_type(unexpected: Unexpected<'_>, expected: &dyn Expected) -> Self {
        Misread::custom(format_args!("{unexpected} in the place of {expected}"))
    }
}

/// A table to be read.
pub struct Table<'t>(pub &'t DeTable<'t>);

impl<'de> Deserializer<'de> for Table<'de> {
    type Error = Misread;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        visitor.visit_map(Entries { rest: self.0.iter(), value: None })
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit unit_struct
        newtype_struct seq tuple tuple_struct map struct enum identifier ignored_any
    }
}

struct Entries<'t> {
    rest: toml::map::Iter<'t, Spanned<DeString<'t>>, Spanned<DeValue<'t>>>,
    value: Option<(&'t str, &'t Spanned<DeValue<'t>>)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Misread;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Misread> {
        let Some((key, value)) = self.rest.next() else { return Ok(None) };
        let name = key.get_ref().as_ref();
        self.value = Some((name, value));
        seed.deserialize(StrDeserializer::new(name))
            .map(Some)
            .map_err(|misread: Misread| misread.at(key.span()).below(name))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Misread> {
        let (key, value) = self.value.take().ok_or_else(|| Misread::custom("a value without a key"))?;
        seed.deserialize(Value(value)).map_err(|misread| misread.below(key))
    }
}

/// A value to be read.
struct Value<'t>(&'t Spanned<DeValue<'t>>);

impl<'de> Value<'de> {
    fn wants(&self, expected: &'static str) -> Misread {
        Misread::new(Wrong::Kind { expected }).at(self.0.span())
    }
}

impl<'de> Deserializer<'de> for Value<'de> {
    type Error = Misread;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        self.deserialize_string(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        visitor.visit_some(self)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        let number: Option<f64> = match self.0.get_ref() {
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
            DeValue::Float(number) => number.as_str().parse().ok(),
            _ => None,
        };
        let number = number.filter(|number| number.is_finite()).ok_or_else(|| self.wants("a number"))?;
        visitor.visit_f64(number)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        let number: Option<u64> = match self.0.get_ref() {
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
            _ => None,
        };
        visitor.visit_u64(number.filter(|number| *number > 0).ok_or_else(|| self.wants("a whole number above 0"))?)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.0.get_ref() {
            DeValue::Boolean(yes) => visitor.visit_bool(*yes),
            _ => Err(self.wants("true or false")),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.0.get_ref() {
            DeValue::String(text) => visitor.visit_str(text).map_err(|misread: Misread| misread.at(self.0.span())),
            _ => Err(self.wants("a word in quotation marks")),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misread> {
        match self.0.get_ref() {
            DeValue::String(text) => visitor.visit_enum(Word(text)).map_err(|misread| misread.at(self.0.span())),
            _ => Err(Misread::new(Wrong::Word { word: String::new(), expected: words }).at(self.0.span())),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.0.get_ref() {
            DeValue::Array(values) => visitor.visit_seq(Values(values.iter())),
            _ => Err(self.wants("a list in square brackets")),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misread> {
        match self.0.get_ref() {
            DeValue::Table(table) => Table(table).deserialize_any(visitor),
            _ => Err(self.wants("a table")),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misread> {
        self.deserialize_map(visitor)
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u32 u128 f32 char str bytes byte_buf unit unit_struct newtype_struct tuple
        tuple_struct identifier ignored_any
    }
}

struct Values<'t>(std::slice::Iter<'t, Spanned<DeValue<'t>>>);

impl<'de> SeqAccess<'de> for Values<'de> {
    type Error = Misread;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Misread> {
        self.0.next().map(|value| seed.deserialize(Value(value))).transpose()
    }
}

/// A word of a choice, which carries nothing further.
struct Word<'t>(&'t str);

impl<'de> EnumAccess<'de> for Word<'de> {
    type Error = Misread;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Misread> {
        Ok((seed.deserialize(StrDeserializer::new(self.0))?, self))
    }
}

impl<'de> VariantAccess<'de> for Word<'de> {
    type Error = Misread;

    fn unit_variant(self) -> Result<(), Misread> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, _: T) -> Result<T::Value, Misread> {
        Err(Misread::custom("a word carries nothing further"))
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, Misread> {
        Err(Misread::custom("a word carries nothing further"))
    }

    fn struct_variant<V: Visitor<'de>>(self, _: &'static [&'static str], _: V) -> Result<V::Value, Misread> {
        Err(Misread::custom("a word carries nothing further"))
    }
}
