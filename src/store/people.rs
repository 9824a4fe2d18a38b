//! Settings, clients and jobs.

use super::cells::{all, run, word};
use super::error::Fault;
use crate::shop::{Client, ClientId, Job, JobId, Settings};
use rusqlite::{Connection, params};

pub(super) fn settings(conn: &Connection) -> Result<Option<Settings>, Fault> {
    let sql =
        "SELECT shop_name, shop_address, length, temperature, volume, zone, look FROM setting";
    let found = all(conn, sql, [], |row| {
        Ok(Settings {
            shop_name: row.take()?,
            shop_address: row.take()?,
            length: row.word()?,
            temperature: row.word()?,
            volume: row.word()?,
            zone: row.word()?,
            look: row.word()?,
        })
    })?;
    Ok(found.into_iter().next())
}

pub(super) fn put_settings(conn: &Connection, settings: &Settings) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO setting \
         (one, shop_name, shop_address, length, temperature, volume, zone, look) \
         VALUES (1, ?1, ?2, ?3, ?4, ?5, ?6, ?7) ON CONFLICT (one) DO UPDATE SET \
         shop_name = excluded.shop_name, shop_address = excluded.shop_address, \
         length = excluded.length, temperature = excluded.temperature, volume = excluded.volume, \
         zone = excluded.zone, look = excluded.look",
        params![
            settings.shop_name,
            settings.shop_address,
            word(&settings.length)?,
            word(&settings.temperature)?,
            word(&settings.volume)?,
            word(&settings.zone)?,
            word(&settings.look)?,
        ],
    )?;
    Ok(())
}

pub(super) fn clients(conn: &Connection) -> Result<Vec<Client>, Fault> {
    let sql = "SELECT id, name, phone, email, address, notes FROM client";
    let mut clients = all(conn, sql, [], |row| {
        Ok(Client {
            id: row.parse()?,
            name: row.take()?,
            phone: row.take()?,
            email: row.take()?,
            address: row.take()?,
            notes: row.take()?,
        })
    })?;
    clients.sort_by_cached_key(|client| (client.name.to_lowercase(), client.id));
    Ok(clients)
}

pub(super) fn put_client(conn: &Connection, client: &Client) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO client (id, name, phone, email, address, notes) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6) ON CONFLICT (id) DO UPDATE SET \
         name = excluded.name, phone = excluded.phone, email = excluded.email, \
         address = excluded.address, notes = excluded.notes",
        params![
            client.id.to_string(),
            client.name,
            client.phone,
            client.email,
            client.address,
            client.notes,
        ],
    )?;
    Ok(())
}

pub(super) fn remove_client(conn: &Connection, id: ClientId) -> Result<usize, Fault> {
    run(conn, "DELETE FROM client WHERE id = ?1", [id.to_string()])
}

pub(super) fn jobs(conn: &Connection) -> Result<Vec<Job>, Fault> {
    let sql = "SELECT id, no, client, title, site, house_built, promised, notes, taken \
               FROM job ORDER BY no";
    all(conn, sql, [], |row| {
        Ok(Job {
            id: row.parse()?,
            no: row.take()?,
            client: row.parse()?,
            title: row.take()?,
            site: row.take()?,
            house_built: row.take()?,
            promised: row.maybe_parse()?,
            notes: row.take()?,
            taken: row.parse()?,
        })
    })
}

pub(super) fn put_job(conn: &Connection, job: &Job) -> Result<(), Fault> {
    run(
        conn,
        "INSERT INTO job (id, no, client, title, site, house_built, promised, notes, taken) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT (id) DO UPDATE SET \
         no = excluded.no, client = excluded.client, title = excluded.title, \
         site = excluded.site, house_built = excluded.house_built, \
         promised = excluded.promised, notes = excluded.notes, taken = excluded.taken",
        params![
            job.id.to_string(),
            job.no,
            job.client.to_string(),
            job.title,
            job.site,
            job.house_built,
            job.promised.map(|day| day.to_string()),
            job.notes,
            job.taken.to_string(),
        ],
    )?;
    Ok(())
}

pub(super) fn remove_job(conn: &Connection, id: JobId) -> Result<usize, Fault> {
    super::wood::forget_job(conn, &id.to_string())?;
    super::plan::forget_job(conn, &id.to_string())?;
    super::bills::forget_job(conn, &id.to_string())?;
    run(conn, "DELETE FROM job WHERE id = ?1", [id.to_string()])
}
