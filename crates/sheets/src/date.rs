//! A day, as it is printed on a sheet.

use std::fmt;
use std::str::FromStr;

use files::report::on_one_line;

/// A day of the common calendar.
///
/// ```
/// use sheets::Date;
/// let day: Date = "2026-02-28".parse().expect("a day that exists");
/// assert_eq!(day.to_string(), "2026-02-28");
/// assert!("2026-02-29".parse::<Date>().is_err());
/// assert!("28.2.2026".parse::<Date>().is_err());
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Date {
    /// Year, 1 to 9999.
    pub year: i32,
    /// Month, from 1.
    pub month: u8,
    /// Day of the month, from 1.
    pub day: u8,
}

/// Not a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoDate(String);

impl fmt::Display for NoDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "\"{}\" is no day; write it as 2026-03-31", self.0)
    }
}

impl std::error::Error for NoDate {}

impl FromStr for Date {
    type Err = NoDate;

    fn from_str(text: &str) -> Result<Self, NoDate> {
        let no = || NoDate(on_one_line(text).chars().take(20).collect());
        let figures = |part: &str, count: usize| {
            let right = part.len() == count && part.bytes().all(|b| b.is_ascii_digit());
            right.then(|| part.parse::<u16>().ok()).flatten()
        };
        let parts: Vec<&str> = text.split('-').collect();
        let [year, month, day] = parts[..] else {
            return Err(no());
        };
        let (Some(year), Some(month), Some(day)) =
            (figures(year, 4), figures(month, 2), figures(day, 2))
        else {
            return Err(no());
        };
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 0,
        };
        if year == 0 || day == 0 || day > days {
            return Err(no());
        }
        Ok(Date {
            year: i32::from(year),
            // Both are below 32.
            month: month as u8,
            day: day as u8,
        })
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}
