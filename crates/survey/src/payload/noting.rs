//! Reading a payload from JSON while noting where something does not fit, and what nobody asked for.
//!
//! One reader for all kinds and all depths. The libraries that note either of the two wrap every visitor of every type
//! once more; in the app for the browser the two together came to a twentieth of what travels.

use serde::de::value::BorrowedStrDeserializer;
use serde::de::{
    DeserializeOwned, DeserializeSeed, EnumAccess, Error as _, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;
use serde_json::{Error, Map, Value, map};
use std::cell::RefCell;
use std::slice;

/// What was noted.
#[derive(Debug, Default)]
pub struct Notes {
    /// Where the value lies that did not fit, e.g. `places[0].strake`; empty for the whole.
    pub misfit_at: String,
    /// The first field that nobody asked for, e.g. `places.0.strke`.
    pub unknown: Option<String>,
}

/// Reads a type from a value.
///
/// # Errors
/// What the type says of the value that does not fit.
pub fn read<T: DeserializeOwned>(value: &Value) -> (Result<T, Error>, Notes) {
    let noted = Noted::default();
    let read = T::deserialize(Reader { value, way: &Way::Whole, noted: &noted });
    let notes = Notes { misfit_at: noted.misfit.into_inner().unwrap_or_default(), unknown: noted.unknown.into_inner() };
    (read, notes)
}

#[derive(Default)]
struct Noted {
    misfit: RefCell<Option<String>>,
    unknown: RefCell<Option<String>>,
}

/// The way to a value.
enum Way<'a> {
    Whole,
    Field(&'a Way<'a>, &'a str),
    Item(&'a Way<'a>, usize),
}

impl Way<'_> {
    fn written(&self, item: fn(usize) -> String) -> String {
        match self {
            Way::Whole => String::new(),
            Way::Field(Way::Whole, name) => (*name).to_owned(),
            Way::Field(before, name) => format!("{}.{name}", before.written(item)),
            Way::Item(before, index) => format!("{}{}", before.written(item), item(*index)),
        }
    }
}

/// A value on its way.
#[derive(Clone, Copy)]
struct Reader<'a, 'de> {
    value: &'de Value,
    way: &'a Way<'a>,
    noted: &'a Noted,
}

impl Reader<'_, '_> {
    /// Notes where a fault came up; the innermost is the one that counts.
    fn noting<T>(self, read: Result<T, Error>) -> Result<T, Error> {
        if read.is_err() {
            let mut misfit = self.noted.misfit.borrow_mut();
            misfit.get_or_insert_with(|| self.way.written(|index| format!("[{index}]")));
        }
        read
    }
}

impl<'de> serde::Deserializer<'de> for Reader<'_, 'de> {
    type Error = Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        let Self { way, noted, .. } = self;
        let read = match self.value {
            Value::Null => visitor.visit_unit(),
            Value::Bool(yes) => visitor.visit_bool(*yes),
            Value::Number(number) => number.deserialize_any(visitor),
            Value::String(text) => visitor.visit_borrowed_str(text),
            Value::Array(items) => {
                let mut rest = Items { items: items.iter(), index: 0, way, noted };
                let read = visitor.visit_seq(&mut rest);
                match (&read, rest.items.len()) {
                    (Ok(_), 1..) => Err(Error::invalid_length(items.len(), &"fewer elements in array")),
                    _ => read,
                }
            }
            Value::Object(fields) => visitor.visit_map(Fields { fields: fields.iter(), at: None, way, noted }),
        };
        self.noting(read)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        match self.value {
            Value::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Error> {
        let read = visitor.visit_newtype_struct(self);
        self.noting(read)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Error> {
        let read = match (self.value, single(self.value)) {
            (Value::String(variant), _) => visitor.visit_enum(Variant { variant, content: None, reader: self }),
            (_, Some((variant, content))) => {
                visitor.visit_enum(Variant { variant, content: Some(content), reader: self })
            }
            _ => serde::Deserializer::deserialize_enum(self.value, name, variants, visitor),
        };
        self.noting(read)
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Error> {
        let mut unknown = self.noted.unknown.borrow_mut();
        unknown.get_or_insert_with(|| self.way.written(|index| format!(".{index}")));
        visitor.visit_unit()
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple
        tuple_struct map struct identifier
    }
}

/// Returns the only field of an object that has one.
fn single(value: &Value) -> Option<(&str, &Value)> {
    let fields: &Map<String, Value> = value.as_object().filter(|fields| fields.len() == 1)?;
    fields.iter().next().map(|(name, content)| (name.as_str(), content))
}

struct Items<'a, 'de> {
    items: slice::Iter<'de, Value>,
    index: usize,
    way: &'a Way<'a>,
    noted: &'a Noted,
}

impl<'de> SeqAccess<'de> for &mut Items<'_, 'de> {
    type Error = Error;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Error> {
        let Some(value) = self.items.next() else { return Ok(None) };
        let way = Way::Item(self.way, self.index);
        self.index += 1;
        let reader = Reader { value, way: &way, noted: self.noted };
        // A type may refuse what its reader took, as a text that is no digest.
        reader.noting(seed.deserialize(reader)).map(Some)
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.items.len())
    }
}

struct Fields<'a, 'de> {
    fields: map::Iter<'de>,
    at: Option<(&'de str, &'de Value)>,
    way: &'a Way<'a>,
    noted: &'a Noted,
}

impl<'de> MapAccess<'de> for Fields<'_, 'de> {
    type Error = Error;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Error> {
        let Some((name, value)) = self.fields.next() else { return Ok(None) };
        self.at = Some((name, value));
        seed.deserialize(BorrowedStrDeserializer::new(name)).map(Some)
    }

    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, Error> {
        let Some((name, value)) = self.at.take() else { return Err(Error::custom("a value without a name")) };
        let way = Way::Field(self.way, name);
        let reader = Reader { value, way: &way, noted: self.noted };
        reader.noting(seed.deserialize(reader))
    }

    fn size_hint(&self) -> Option<usize> {
        Some(self.fields.len())
    }
}

struct Variant<'a, 'de> {
    variant: &'de str,
    content: Option<&'de Value>,
    reader: Reader<'a, 'de>,
}

impl<'a, 'de> Variant<'a, 'de> {
    fn content<T>(
        self,
        read: impl FnOnce(Reader<'_, 'de>) -> Result<T, Error>,
        wanted: &'static str,
    ) -> Result<T, Error> {
        let unit = serde::de::Unexpected::UnitVariant;
        let value = self.content.ok_or_else(|| Error::invalid_type(unit, &wanted))?;
        let Reader { way, noted, .. } = self.reader;
        read(Reader { value, way: &Way::Field(way, self.variant), noted })
    }
}

impl<'a, 'de> EnumAccess<'de> for Variant<'a, 'de> {
    type Error = Error;
    type Variant = Self;

    fn variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<(T::Value, Self), Error> {
        let variant = seed.deserialize(BorrowedStrDeserializer::<Error>::new(self.variant))?;
        Ok((variant, self))
    }
}

impl<'de> VariantAccess<'de> for Variant<'_, 'de> {
    type Error = Error;

    fn unit_variant(self) -> Result<(), Error> {
        match self.content {
            None => Ok(()),
            Some(_) => self.content(|reader| <() as serde::Deserialize>::deserialize(reader), "unit variant"),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Error> {
        self.content(|reader| seed.deserialize(reader), "newtype variant")
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Error> {
        self.content(|reader| serde::Deserializer::deserialize_any(reader, visitor), "tuple variant")
    }

    fn struct_variant<V: Visitor<'de>>(self, _: &'static [&'static str], visitor: V) -> Result<V::Value, Error> {
        self.content(|reader| serde::Deserializer::deserialize_any(reader, visitor), "struct variant")
    }
}
