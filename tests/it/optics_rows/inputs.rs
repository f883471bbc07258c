//! The inputs of a row, read by name; what was never asked for is remembered.

use std::cell::RefCell;
use std::collections::BTreeSet;

use serde_json::{Map, Value};

/// Inputs, or any object within them.
pub(crate) struct Inputs<'a> {
    map: &'a Map<String, Value>,
    used: RefCell<BTreeSet<String>>,
}

impl<'a> Inputs<'a> {
    pub(crate) fn new(value: &'a Value) -> Result<Self, String> {
        match value {
            Value::Object(map) => Ok(Self {
                map,
                used: RefCell::default(),
            }),
            other => Err(format!("inputs are no object: {other}")),
        }
    }

    /// The first of some names, whatever their case.
    pub(crate) fn value(&self, names: &[&str]) -> Option<&'a Value> {
        let found = names.iter().find_map(|name| {
            let exact = self.map.get_key_value(*name);
            exact.or_else(|| self.map.iter().find(|(key, _)| key.eq_ignore_ascii_case(name)))
        });
        let (key, value) = found?;
        self.used.borrow_mut().insert(key.clone());
        (!value.is_null()).then_some(value)
    }

    pub(crate) fn number(&self, names: &[&str]) -> Result<f64, String> {
        let value = self.value(names).ok_or_else(|| missing(names))?;
        as_number(value).ok_or_else(|| format!("`{}` is no number: {value}", names.join("` or `")))
    }

    pub(crate) fn number_or(&self, names: &[&str], default: f64) -> Result<f64, String> {
        match self.value(names) {
            Some(_) => self.number(names),
            None => Ok(default),
        }
    }

    pub(crate) fn count(&self, names: &[&str]) -> Result<u32, String> {
        whole(self.number(names)?)
    }

    pub(crate) fn text(&self, names: &[&str]) -> Result<&'a str, String> {
        let value = self.value(names).ok_or_else(|| missing(names))?;
        value
            .as_str()
            .ok_or_else(|| format!("`{}` is no text: {value}", names.join("` or `")))
    }

    pub(crate) fn text_or(&self, names: &[&str], default: &'a str) -> Result<&'a str, String> {
        match self.value(names) {
            Some(_) => self.text(names),
            None => Ok(default),
        }
    }

    pub(crate) fn flag_or(&self, names: &[&str], default: bool) -> Result<bool, String> {
        match self.value(names) {
            None => Ok(default),
            Some(Value::Bool(flag)) => Ok(*flag),
            Some(other) => Err(format!(
                "`{}` is neither true nor false: {other}",
                names.join("` or `")
            )),
        }
    }

    pub(crate) fn list(&self, names: &[&str]) -> Result<&'a [Value], String> {
        let value = self.value(names).ok_or_else(|| missing(names))?;
        let list = value.as_array().map(Vec::as_slice);
        list.ok_or_else(|| format!("`{}` is no list: {value}", names.join("` or `")))
    }

    pub(crate) fn list_or_empty(&self, names: &[&str]) -> Result<&'a [Value], String> {
        match self.value(names) {
            Some(_) => self.list(names),
            None => Ok(&[]),
        }
    }

    pub(crate) fn numbers(&self, names: &[&str]) -> Result<Vec<f64>, String> {
        self.list(names)?.iter().map(one).collect()
    }

    /// Names whose values were never asked for; remarks in words are not counted.
    pub(crate) fn unused(&self) -> Vec<&str> {
        let used = self.used.borrow();
        let all = self
            .map
            .iter()
            .filter(|(key, value)| !used.contains(*key) && !value.is_string());
        all.map(|(key, _)| key.as_str()).collect()
    }
}

/// A number, or a number in quotes.
pub(crate) fn as_number(value: &Value) -> Option<f64> {
    value.as_f64().or_else(|| value.as_str()?.trim().parse().ok())
}

/// The same, or an error.
pub(crate) fn one(value: &Value) -> Result<f64, String> {
    as_number(value).ok_or_else(|| format!("no number: {value}"))
}

/// A pair of numbers.
pub(crate) fn pair(value: &Value) -> Result<(f64, f64), String> {
    match value.as_array().map(Vec::as_slice) {
        Some([a, b]) => Ok((one(a)?, one(b)?)),
        _ => Err(format!("no pair: {value}")),
    }
}

pub(crate) fn whole(value: f64) -> Result<u32, String> {
    if value.fract() == 0.0 && (0.0..=4e9).contains(&value) {
        Ok(value as u32)
    } else {
        Err(format!("{value} is no whole number"))
    }
}

fn missing(names: &[&str]) -> String {
    format!("no `{}`", names.join("` or `"))
}
