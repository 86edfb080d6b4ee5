//! The runner of published checks: tables in `tests/data`, each with its source, its tolerance and the reason for it.
//!
//! A table begins with lines `# source: ...` and `# tolerance: 0.05 dB: why` (or `20 %: why`, relative to the expected
//! value); further `# key: value` lines are free. A column `tolerance` overrides the amount for its row. A table without
//! both lines, without a check, or whose check compares nothing is refused.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// How far a computed value may lie from the published one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Amount in the unit of the values, or a ratio.
    amount: f64,
    /// Whether `amount` is a ratio to the expected value.
    relative: bool,
}

impl Tolerance {
    /// From text such as `0.05 dB`, `0.2` or `20 %`.
    fn parse(text: &str) -> Option<Self> {
        let mut words = text.split_whitespace();
        let amount: f64 = words.next()?.parse().ok()?;
        let relative = words.next() == Some("%");
        let amount = if relative { amount / 100.0 } else { amount };
        (amount.is_finite() && amount >= 0.0).then_some(Self { amount, relative })
    }

    fn allows(self, expected: f64, computed: f64) -> bool {
        let limit = if self.relative { self.amount * expected.abs() } else { self.amount };
        (computed - expected).abs() <= limit
    }
}

/// One published table.
#[derive(Clone, Debug)]
pub struct Table {
    headers: BTreeMap<String, String>,
    tolerance: Tolerance,
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// Reads a table.
    ///
    /// # Errors
    /// Says which header line is missing or what cannot be read.
    pub fn read(text: &str) -> Result<Self, String> {
        let is_header = |line: &&str| line.starts_with('#');
        let mut headers = BTreeMap::new();
        for line in text.lines().take_while(is_header) {
            let (key, value) = line[1..].split_once(':').ok_or_else(|| format!("no `# key: value`: {line}"))?;
            headers.insert(key.trim().to_owned(), value.trim().to_owned());
        }
        if headers.get("source").is_none_or(String::is_empty) {
            return Err("no line `# source: ...`".to_owned());
        }
        let tolerance = headers.get("tolerance").and_then(|text| text.split_once(':'));
        let (amount, why) = tolerance.ok_or("no line `# tolerance: amount: why`")?;
        if why.trim().is_empty() {
            return Err("the tolerance has no reason".to_owned());
        }
        let tolerance = Tolerance::parse(amount).ok_or_else(|| format!("tolerance cannot be read: {amount}"))?;
        let body: Vec<&str> = text.lines().skip_while(is_header).collect();
        let body = body.join("\n");
        let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(body.as_bytes());
        let columns = reader.headers().map_err(|error| error.to_string())?.iter().map(str::to_owned).collect();
        let rows = reader
            .records()
            .map(|record| record.map(|record| record.iter().map(str::to_owned).collect()))
            .collect::<Result<Vec<_>, _>>()
            .map_err(|error| error.to_string())?;
        Ok(Self { headers, tolerance, columns, rows })
    }

    /// The number of a header line `# key: number`.
    ///
    /// # Panics
    /// When there is no such line or it holds no number.
    pub fn header_number(&self, key: &str) -> f64 {
        let text = self.headers.get(key).unwrap_or_else(|| panic!("no line `# {key}: ...`"));
        text.parse().unwrap_or_else(|_| panic!("`# {key}: {text}` is no number"))
    }

    /// Names of the columns.
    pub fn columns(&self) -> &[String] {
        &self.columns
    }

    /// The rows in order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|cells| Row { columns: &self.columns, cells })
    }
}

/// One row of a table.
#[derive(Clone, Copy, Debug)]
pub struct Row<'a> {
    columns: &'a [String],
    cells: &'a [String],
}

impl<'a> Row<'a> {
    /// The text in a column.
    ///
    /// # Panics
    /// When there is no such column.
    pub fn text(&self, column: &str) -> &'a str {
        let index = self.columns.iter().position(|name| name == column);
        &self.cells[index.unwrap_or_else(|| panic!("no column {column}"))]
    }

    /// The number in a column; `None` when it is empty.
    ///
    /// # Panics
    /// When there is no such column or it holds something else.
    pub fn maybe(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        (!text.is_empty()).then(|| text.parse().unwrap_or_else(|_| panic!("column {column} holds no number: {text}")))
    }

    /// The number in a column.
    ///
    /// # Panics
    /// When there is no such column or it holds no number.
    pub fn number(&self, column: &str) -> f64 {
        self.maybe(column).unwrap_or_else(|| panic!("column {column} is empty in {:?}", self.cells))
    }

    /// A comparison of the number in `column` with `computed`; the row's own tolerance counts where it has one.
    ///
    /// # Panics
    /// When there is no such column, or the row's own tolerance cannot be read.
    pub fn compare(&self, column: &str, computed: f64) -> Comparison {
        let own =
            self.columns.iter().any(|name| name == "tolerance").then(|| self.text("tolerance")).filter(|text| !text.is_empty());
        Comparison {
            label: format!("{}, {column}", self.cells[0]),
            expected: self.number(column),
            computed,
            tolerance: own.map(|text| Tolerance::parse(text).unwrap_or_else(|| panic!("tolerance cannot be read: {text}"))),
        }
    }
}

/// A published value beside a computed one.
#[derive(Clone, Debug)]
pub struct Comparison {
    label: String,
    expected: f64,
    computed: f64,
    tolerance: Option<Tolerance>,
}

impl Comparison {
    /// A comparison that is not one cell of the table.
    pub fn new(label: impl Into<String>, expected: f64, computed: f64) -> Self {
        Self { label: label.into(), expected, computed, tolerance: None }
    }
}

/// A check: from a table to the values to compare.
pub type Check = fn(&Table) -> Vec<Comparison>;

/// Runs `checks`, named by their files, over all tables in `folder`; returns the number of values compared.
///
/// # Errors
/// Every table that is refused, every check without its table, and every value beyond its tolerance.
pub fn run(folder: &Path, checks: &[(&str, Check)]) -> Result<usize, Vec<String>> {
    let mut wrong = Vec::new();
    let mut compared = 0;
    let mut files: Vec<String> = match fs::read_dir(folder) {
        Ok(entries) => entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect(),
        Err(error) => return Err(vec![format!("{}: {error}", folder.display())]),
    };
    files.retain(|file| Path::new(file).extension().is_some_and(|extension| extension == "csv"));
    files.sort();
    wrong.extend(
        checks
            .iter()
            .filter(|(name, _)| !files.iter().any(|file| file == name))
            .map(|(name, _)| format!("{name}: no such table")),
    );
    for file in &files {
        let table = fs::read_to_string(folder.join(file)).map_err(|error| error.to_string()).and_then(|text| Table::read(&text));
        let check = checks.iter().find(|(name, _)| name == file);
        match (table, check) {
            (Err(error), _) => wrong.push(format!("{file}: {error}")),
            (Ok(_), None) => wrong.push(format!("{file}: no check reads this table")),
            (Ok(table), Some((_, check))) => {
                let comparisons = check(&table);
                if comparisons.is_empty() {
                    wrong.push(format!("{file}: nothing compared"));
                }
                compared += comparisons.len();
                wrong.extend(
                    comparisons.iter().filter_map(|comparison| judge(comparison, &table)).map(|text| format!("{file}: {text}")),
                );
            }
        }
    }
    if wrong.is_empty() { Ok(compared) } else { Err(wrong) }
}

fn judge(comparison: &Comparison, table: &Table) -> Option<String> {
    let Comparison { label, expected, computed, tolerance } = comparison;
    let fits = tolerance.unwrap_or(table.tolerance).allows(*expected, *computed);
    (!fits).then(|| format!("{label}: published {expected}, computed {computed}"))
}

#[cfg(test)]
mod tests {
    use super::{Comparison, Table, Tolerance, judge};

    #[test]
    fn a_table_without_source_tolerance_or_reason_is_refused() {
        let body = "hz,db\n100,1\n";
        assert!(Table::read(&format!("# source: a book\n# tolerance: 1 dB: rounded\n{body}")).is_ok());
        for headers in [
            "",
            "# source: a book\n",
            "# tolerance: 1 dB: rounded\n",
            "# source:\n# tolerance: 1 dB: rounded\n",
            "# source: a book\n# tolerance: 1 dB\n",
            "# source: a book\n# tolerance: 1 dB: \n",
            "# source: a book\n# tolerance: some: rounded\n",
            "# source: a book\n# tolerance: NaN: rounded\n",
            "# source: a book\n# tolerance: -1: rounded\n",
        ] {
            assert!(Table::read(&format!("{headers}{body}")).is_err(), "{headers}");
        }
        assert!(Table::read("# source: a book\n# tolerance: 1 dB: rounded\nhz,db\n100\n").is_err(), "a row too short");
    }

    #[test]
    fn a_value_beyond_its_tolerance_or_not_a_number_is_told() {
        let table =
            Table::read("# source: a book\n# tolerance: 10 %: varies\nhz,db,tolerance\n100,20,\n200,20,30 %\n").expect("sound");
        let rows: Vec<_> = table.rows().collect();
        assert!(judge(&rows[0].compare("db", 22.0), &table).is_none());
        assert!(judge(&rows[0].compare("db", 22.1), &table).is_some());
        assert!(judge(&rows[1].compare("db", 25.9), &table).is_none());
        assert!(judge(&rows[1].compare("db", f64::NAN), &table).is_some());
        assert!(judge(&Comparison::new("own", -20.0, -22.1), &table).is_some());
        assert_eq!(Tolerance::parse("0.5 dB"), Some(Tolerance { amount: 0.5, relative: false }));
    }
}
