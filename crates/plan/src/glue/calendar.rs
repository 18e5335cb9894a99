//! The whole work as shop days.

use files::message::Wording;

use crate::operation::Operation;

/// A day in the shop.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Day {
    /// Its number from the first, nights of waiting counted, from 1.
    pub number: usize,
    /// The first operation worked on.
    pub first: usize,
    /// The last.
    pub last: usize,
    /// Minutes of work.
    pub minutes: f64,
}

/// Days that would be longer are a mistake of the file.
const MOST_DAYS: usize = 2000;

/// Lays the operations out on days of so many hours: work in the order of the route, a
/// glue-up cures overnight, and what does not fit is done the next day.
///
/// One thing after another: who glues several rings in a day is done sooner.
pub fn calendar<W: Wording>(operations: &[Operation<W>], hours_a_day: f64) -> Vec<Day> {
    let full = hours_a_day.clamp(0.1, 24.0) * 60.0;
    let mut days: Vec<Day> = Vec::new();
    // Minutes from the first day's beginning, nights counted.
    let mut now = 0.0;
    for operation in operations {
        let mut left = operation.minutes.max(0.0);
        loop {
            let day = (now / 1440.0_f64).floor();
            let used = now - day * 1440.0;
            if used >= full - 1e-9 {
                now = (day + 1.0) * 1440.0;
                continue;
            }
            let done = left.min(full - used);
            note(&mut days, day as usize + 1, operation.number, done);
            now += done;
            left -= done;
            if left <= 1e-9 || days.len() >= MOST_DAYS {
                break;
            }
        }
        now += operation.wait_hours.max(0.0) * 60.0;
    }
    days
}

fn note(days: &mut Vec<Day>, number: usize, operation: usize, minutes: f64) {
    match days.last_mut() {
        Some(day) if day.number == number => {
            day.last = operation;
            day.minutes += minutes;
        }
        _ => days.push(Day {
            number,
            first: operation,
            last: operation,
            minutes,
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan;
    use crate::trial;
    use files::message::Said;
    use files::units::Unit;

    #[test]
    fn all_work_is_on_some_day_and_none_is_too_long() {
        let plan = plan(&trial::settled(trial::bowl_design()), Unit::Mm);
        for hours in [1.0, 4.0, 8.0] {
            let days = calendar(&plan.operations, hours);
            let minutes: f64 = days.iter().map(|d| d.minutes).sum();
            assert!((minutes - plan.minutes).abs() < 1e-6);
            assert!(days.iter().all(|d| d.minutes <= hours * 60.0 + 1e-6));
            assert!(
                days.windows(2)
                    .all(|w| w[0].number < w[1].number && w[0].last <= w[1].first)
            );
        }
    }

    #[test]
    fn waiting_takes_its_days() {
        let plan = plan(&trial::settled(trial::bowl_design()), Unit::Mm);
        let days = calendar(&plan.operations, 8.0);
        let last = days.last().map_or(0, |d| d.number);
        assert!(last as f64 >= (plan.wait_hours / 24.0).floor());
        assert!(calendar::<Said>(&[], 4.0).is_empty());
    }
}
