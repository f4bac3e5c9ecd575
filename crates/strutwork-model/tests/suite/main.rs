//! The model crate from the outside: whole folders in, a model or every fault out.

mod bolts;
mod faults;
mod faults_bolts;
mod faults_judging;
mod faults_modules;
mod faults_panels;
mod faults_rig;
mod faults_screening;
mod folder;
mod judging;
mod laws;
mod modules;
mod panels;
mod reading;
mod screening;
mod sections;
mod soft;
mod vehicle;
mod welds;
