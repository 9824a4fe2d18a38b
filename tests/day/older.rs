//! Shops from before there were days' ends: their stores and their files are read all the same.

use crate::hand::{Hand, ZONE};
use rusqlite::Connection;
use tackfree::coating::LabelHours;
use tackfree::coating::id::Mint;
use tackfree::desk::{Books, Scope, Shop};
use tackfree::shop::DayLog;
use tackfree::store::Store;
use tackfree::store::files::{LATER, export, import};

#[test]
fn a_store_of_the_first_layout_is_brought_up() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.tackfree");
    let conn = Connection::open(&path).unwrap();
    conn.execute_batch(include_str!("../../src/store/migrations/001_start.sql"))
        .unwrap();
    conn.pragma_update(None, "application_id", 0x746b_6672)
        .unwrap();
    conn.pragma_update(None, "user_version", 1).unwrap();
    drop(conn);
    let store = Store::open(&path).unwrap();
    assert_eq!(store.days().unwrap(), DayLog::default());
    assert!(store.check().unwrap().is_empty());
}

#[test]
fn files_without_days_ends_come_in() {
    let mut hand = Hand::at("2026-11-24 09:00");
    let shelf = hand.piece("long shelf", "hardwax oil on all sides");
    hand.through_sanding(shelf);
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path().join("shop");
    export(&hand.store, &folder, ZONE).unwrap();
    for name in LATER {
        std::fs::remove_file(folder.join(name)).unwrap();
    }
    let mut second = Store::in_memory().unwrap();
    let mut mint = Mint::new(uuid::Uuid::nil(), 3);
    import(&mut second, &folder, hand.now, &mut mint, ZONE, &LabelHours).unwrap();
    let shop = Shop::read(&second, Scope::All, ZONE).unwrap();
    assert_eq!(shop.days, DayLog::default());
    assert_eq!(shop.files, hand.shop().files);
}
