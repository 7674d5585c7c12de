-- What devices are searched by, and which housings connectors mate by, stands in columns and rows of its own; those of
-- revisions that exist are filled from their documents.

create table vehicle_mates (
    vehicle_id uuid    not null,
    revision   integer not null,
    connector  text    not null,
    mate       text    not null,
    owner_firm uuid    not null references firms,
    primary key (vehicle_id, revision, connector, mate),
    foreign key (vehicle_id, revision) references vehicle_revisions
);

create table device_mates (
    device_id  uuid    not null,
    revision   integer not null,
    connector  text    not null,
    mate       text    not null,
    owner_firm uuid    not null references firms,
    primary key (device_id, revision, connector, mate),
    foreign key (device_id, revision) references device_revisions
);

create table device_accessories (
    device_id  uuid    not null,
    revision   integer not null,
    accessory  text    not null,
    owner_firm uuid    not null references firms,
    primary key (device_id, revision, accessory),
    foreign key (device_id, revision) references device_revisions
);

alter table device_revisions
    add searched_text text not null default '',
    add searched      tsvector generated always as (array_to_tsvector(search_words(searched_text))) stored;

insert into vehicle_mates (vehicle_id, revision, connector, mate, owner_firm)
select distinct r.vehicle_id, r.revision, each.key, mate, r.owner_firm
from vehicle_revisions r, json_each(r.document::json -> 'connectors') each,
     json_array_elements_text(each.value -> 'mates') mate;

insert into device_mates (device_id, revision, connector, mate, owner_firm)
select distinct r.device_id, r.revision, each.key, mate, r.owner_firm
from device_revisions r, json_each(r.document::json -> 'connectors') each,
     json_array_elements_text(each.value -> 'mates') mate;

insert into device_accessories (device_id, revision, accessory, owner_firm)
select distinct r.device_id, r.revision, each ->> 'device', r.owner_firm
from device_revisions r, json_array_elements(r.document::json -> 'accessories') each;

update device_revisions r
set searched_text = concat_ws(E'\n', r.document::json ->> 'code', r.maker, r.name, r.kind, r.document::json ->> 'notes');

create index vehicle_mates_by_mate on vehicle_mates (mate);
create index device_mates_by_mate on device_mates (mate);
create index device_accessories_by_accessory on device_accessories (accessory);

create index devices_in_order on devices (code, id);
create index devices_by_code_in_lower_case on devices (lower(code) text_pattern_ops);
create index device_revisions_by_name_alone on device_revisions (lower(name) text_pattern_ops);
create index device_revisions_by_word on device_revisions using gin (searched);

grant select, insert on vehicle_mates, device_mates, device_accessories to ${applicationRole};
