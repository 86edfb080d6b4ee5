//! Parts of the page that are used again and again.

mod hooks;
mod line_chart;
mod number_field;
mod select_field;
mod worker_link;

pub use hooks::{OUT_OF_FLOW, Size, use_dark, use_size};
pub use line_chart::LineChartView;
pub use number_field::{NumberField, Slider};
pub use select_field::SelectField;
pub use worker_link::WorkerLink;
