use crate::flow::{Element, Flow, Process, Ratios, Stock, change_of_stocks};

/// What every process brought to and took from every stock over a run.
///
/// ```text
///                 alkalinity   inorganic carbon   oxygen   ...
/// turf growth         +              −              +
/// harvest             0              0              0
/// ...
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    rows: Vec<[f64; Stock::COUNT]>,
    /// Sum of the sizes of everything that flowed to or from each stock.
    gross: [f64; Stock::COUNT],
    before: [f64; Stock::COUNT],
    after: [f64; Stock::COUNT],
    ratios: Ratios,
}

/// How far the books are from closing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closure {
    /// Change that no process accounts for.
    pub unexplained: f64,
    /// Sum of the sizes of everything that flowed.
    pub throughput: f64,
}

impl Ledger {
    pub(crate) fn new(before: &[f64; Stock::COUNT], ratios: &Ratios) -> Self {
        Self {
            rows: vec![[0.0; Stock::COUNT]; Process::COUNT],
            gross: [0.0; Stock::COUNT],
            before: *before,
            after: *before,
            ratios: *ratios,
        }
    }

    /// Books what happened at one moment.
    pub(crate) fn book(&mut self, process: Process, stock: Stock, amount: f64) {
        if let Some(entry) = self
            .rows
            .get_mut(process as usize)
            .and_then(|row| row.get_mut(stock as usize))
        {
            *entry += amount;
        }
        if let Some(gross) = self.gross.get_mut(stock as usize) {
            *gross += amount.abs();
        }
    }

    /// Books what flowed over the whole run and closes.
    pub(crate) fn close(&mut self, flowed: &[f64; Flow::COUNT], after: &[f64; Stock::COUNT]) {
        for (place, (&flow, &amount)) in Flow::ALL.iter().zip(flowed).enumerate() {
            let mut alone = [0.0; Flow::COUNT];
            if let Some(slot) = alone.get_mut(place) {
                *slot = amount;
            }
            let mut change = [0.0; Stock::COUNT];
            change_of_stocks(&alone, &self.ratios, &mut change);
            for (&stock, amount) in Stock::ALL.iter().zip(change) {
                self.book(flow.process(), stock, amount);
            }
        }
        self.after = *after;
    }

    /// What a process brought to a stock (positive) or took from it, in the
    /// stock's unit.
    #[must_use]
    pub fn entry(&self, process: Process, stock: Stock) -> f64 {
        self.rows
            .get(process as usize)
            .and_then(|row| row.get(stock as usize))
            .copied()
            .unwrap_or_default()
    }

    /// A stock at the start and at the end of the run.
    #[must_use]
    pub fn stock(&self, stock: Stock) -> (f64, f64) {
        let at = |s: &[f64; Stock::COUNT]| s.get(stock as usize).copied().unwrap_or_default();
        (at(&self.before), at(&self.after))
    }

    /// What a process brought into the tank of an element, all stocks together;
    /// zero for what stays within.
    #[must_use]
    pub fn crossed(&self, process: Process, element: Element) -> f64 {
        Stock::ALL
            .iter()
            .map(|&s| self.entry(process, s) * element.per_unit(s, &self.ratios))
            .sum()
    }

    /// Whether the books of a stock close.
    #[must_use]
    pub fn closure(&self, stock: Stock) -> Closure {
        let (before, after) = self.stock(stock);
        let entries: f64 = Process::ALL.iter().map(|&p| self.entry(p, stock)).sum();
        Closure {
            unexplained: after - before - entries,
            throughput: self.gross.get(stock as usize).copied().unwrap_or_default(),
        }
    }

    /// Whether the books of an element close over all stocks.
    #[must_use]
    pub fn element_closure(&self, element: Element) -> Closure {
        let held = |stocks: &[f64; Stock::COUNT]| -> f64 {
            Stock::ALL
                .iter()
                .zip(stocks)
                .map(|(&s, amount)| amount * element.per_unit(s, &self.ratios))
                .sum()
        };
        let crossed: Vec<f64> = Process::ALL
            .iter()
            .map(|&p| self.crossed(p, element))
            .collect();
        Closure {
            unexplained: held(&self.after) - held(&self.before) - crossed.iter().sum::<f64>(),
            throughput: crossed.iter().map(|x| x.abs()).sum(),
        }
    }
}

impl Closure {
    /// What is unexplained per throughput; zero if nothing flowed.
    #[must_use]
    pub fn relative(&self) -> f64 {
        if self.throughput > 0.0 {
            self.unexplained.abs() / self.throughput
        } else {
            self.unexplained.abs()
        }
    }
}
