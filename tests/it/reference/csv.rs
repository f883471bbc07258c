//! Reading comma-separated tables: quotes, commas and line ends within quotes, columns by name.

/// A table with a header.
pub(crate) struct Table {
    header: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// One row, with its header.
pub(crate) struct Row<'a> {
    header: &'a [String],
    cells: &'a [String],
}

impl Table {
    /// Reads a table. Empty lines and lines that begin with `#` are passed over; a quote that is never closed is an error.
    pub(crate) fn parse(text: &str) -> Result<Self, String> {
        let mut records = records(text.trim_start_matches('\u{feff}'))?.into_iter();
        let header = records.next().ok_or("the table is empty")?;
        let header = header.iter().map(|name| name.trim().to_lowercase()).collect();
        Ok(Self {
            header,
            rows: records.collect(),
        })
    }

    /// The place of the first column whose name is, or begins with, one of these.
    pub(crate) fn column(&self, names: &[&str]) -> Option<usize> {
        place(&self.header, names)
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|cells| Row {
            header: &self.header,
            cells,
        })
    }
}

impl<'a> Row<'a> {
    /// The cell of the first column whose name is, or begins with, one of these.
    pub(crate) fn get(&self, names: &[&str]) -> Option<&'a str> {
        self.cells.get(place(self.header, names)?).map(|cell| cell.trim())
    }

    /// The same as a number.
    pub(crate) fn number(&self, names: &[&str]) -> Option<f64> {
        super::words::number(self.get(names)?)
    }
}

fn place(header: &[String], names: &[&str]) -> Option<usize> {
    let exact = names
        .iter()
        .find_map(|name| header.iter().position(|column| column == name));
    exact.or_else(|| {
        let begins = |name: &&str| header.iter().position(|column| column.starts_with(*name));
        names.iter().find_map(begins)
    })
}

fn records(text: &str) -> Result<Vec<Vec<String>>, String> {
    let mut records = Vec::new();
    let mut record: Vec<String> = Vec::new();
    let mut cell = String::new();
    let mut quoted = false;
    let mut line = 1;
    let mut opened = 1;
    let mut chars = text.chars().peekable();
    let mut end = |record: &mut Vec<String>, cell: &mut String| {
        record.push(std::mem::take(cell));
        let whole = std::mem::take(record);
        let empty = whole.iter().all(|cell| cell.trim().is_empty());
        if !empty
            && !whole
                .first()
                .is_some_and(|first| first.trim_start().starts_with('#'))
        {
            records.push(whole);
        }
    };
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                cell.push('"');
                chars.next();
            }
            '"' if quoted => quoted = false,
            '"' if cell.trim().is_empty() => {
                cell.clear();
                quoted = true;
                opened = line;
            }
            ',' if !quoted => record.push(std::mem::take(&mut cell)),
            '\n' if !quoted => {
                line += 1;
                end(&mut record, &mut cell);
            }
            '\r' if !quoted => {}
            c => {
                line += u32::from(c == '\n');
                cell.push(c);
            }
        }
    }
    if quoted {
        return Err(format!("the quote in line {opened} is never closed"));
    }
    end(&mut record, &mut cell);
    Ok(records)
}

#[test]
fn quotes_and_columns_are_read() {
    let table = Table::parse("id,notes,tol_abs\n1,\"a, \"\"b\"\"\nc\",0.5\n\n# no\n2,x,\n").unwrap();
    let rows: Vec<_> = table.rows().collect();
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0].get(&["notes"]), Some("a, \"b\"\nc"));
    assert_eq!(rows[0].number(&["tol"]), Some(0.5));
    assert_eq!(rows[1].number(&["tol"]), None);
    assert!(Table::parse("a\n\"b").is_err());
}
