//! A YAML mapping from names to things, in the order it was written.
//!
//! A name that stands twice is refused; a plain map would silently keep the last.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::fmt;
use std::marker::PhantomData;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};

/// Names and things, in the order written; no name twice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named<T> {
    list: Vec<(String, T)>,
    /// Where each name stands in the list.
    index: BTreeMap<String, usize>,
}

impl<T> Default for Named<T> {
    fn default() -> Self {
        Named { list: Vec::new(), index: BTreeMap::new() }
    }
}

impl<T> Named<T> {
    /// The thing of this name.
    pub fn get(&self, name: &str) -> Option<&T> {
        self.index.get(name).and_then(|at| self.list.get(*at)).map(|(_, thing)| thing)
    }

    /// The thing of this name, to be changed.
    pub fn get_mut(&mut self, name: &str) -> Option<&mut T> {
        let at = *self.index.get(name)?;
        self.list.get_mut(at).map(|(_, thing)| thing)
    }

    /// Names and things in the order written.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.list.iter().map(|(key, thing)| (key.as_str(), thing))
    }

    /// Names in the order written.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.list.iter().map(|(key, _)| key.as_str())
    }

    /// Takes a thing out.
    pub fn remove(&mut self, name: &str) -> Option<T> {
        let at = self.index.remove(name)?;
        self.index.values_mut().filter(|other| **other > at).for_each(|other| *other -= 1);
        (at < self.list.len()).then(|| self.list.remove(at).1)
    }

    /// True when there is nothing.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Named<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Reader(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Named<T> {
    fn schema_name() -> Cow<'static, str> {
        format!("Named{}", T::schema_name()).into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "object",
            "additionalProperties": generator.subschema_for::<T>(),
        })
    }
}

struct Reader<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for Reader<T> {
    type Value = Named<T>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("names with a value each")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Named<T>, A::Error> {
        let mut named = Named::default();
        while let Some(name) = map.next_key::<String>()? {
            if named.get(&name).is_some() {
                return Err(A::Error::custom(format!("duplicate field `{name}`")));
            }
            named.index.insert(name.clone(), named.list.len());
            named.list.push((name, map.next_value()?));
        }
        Ok(named)
    }
}
