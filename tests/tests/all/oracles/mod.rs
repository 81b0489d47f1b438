//! Published numbers and answers of reference libraries, each with its source beside it.

mod dentition;
