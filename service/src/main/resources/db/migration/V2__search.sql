-- What vehicles and circuits are searched by stands in columns of its own; rows that exist are filled from their documents.

-- The words of a text as a search keeps them: what stands between characters that are neither letters nor digits, in lower
-- case, each up to its 64th character. PostgreSQL's own splitting takes 7.5 or a/b for one word, so that b is never found.
create function search_words(searched text) returns text[]
    language sql immutable parallel safe
    return array_remove(
        regexp_split_to_array(
            regexp_replace(lower(searched), '([[:alnum:]]{64})[[:alnum:]]+', '\1', 'g'),
            '[^[:alnum:]]+'),
        '');

-- Finds what has, for each word of the text, one that begins so. Null, which finds nothing, if the text has no word.
create function search_query(wanted text) returns tsquery
    language sql immutable parallel safe
    return case when cardinality(search_words(wanted)) > 0
        then ('''' || array_to_string(search_words(wanted), ''':* & ''') || ''':*')::tsquery end;

alter table vehicle_revisions
    add market        text,
    add equipment     text[]  not null default '{}',
    add circuits      integer not null default 0 check (circuits >= 0),
    add searched_text text    not null default '',
    add searched      tsvector generated always as (array_to_tsvector(search_words(searched_text))) stored;

alter table vehicle_circuits
    add position       integer,
    add connector_name text,
    add location       text,
    add document       text,
    add searched_text  text not null default '',
    add searched       tsvector generated always as (array_to_tsvector(search_words(searched_text))) stored;

create table vehicle_vin_patterns (
    vehicle_id uuid    not null,
    revision   integer not null,
    pattern    text    not null check (pattern ~ '^[0-9A-Z?]{3,17}$'),
    owner_firm uuid    not null references firms,
    -- what every matching VIN begins with; a search looks up the beginnings of its VIN
    stem       text generated always as (split_part(pattern, '?', 1)) stored,
    primary key (vehicle_id, revision, pattern),
    foreign key (vehicle_id, revision) references vehicle_revisions
);

-- json and not jsonb, which would forget the order of the circuits
update vehicle_revisions r
set market        = r.document::json ->> 'market',
    equipment     = array(select json_array_elements_text(r.document::json -> 'equipment')),
    circuits      = (select count(*) from json_object_keys(r.document::json -> 'circuits')),
    searched_text = concat_ws(E'\n', r.document::json ->> 'maker', r.document::json ->> 'model', r.document::json ->> 'market',
        (select string_agg(entry, E'\n') from json_array_elements_text(r.document::json -> 'equipment') as entry),
        r.document::json ->> 'notes');

update vehicle_circuits c
set position       = d.position,
    connector_name = d.connector ->> 'name',
    location       = d.connector ->> 'location',
    document       = d.circuit::text,
    searched_text  = concat_ws(E'\n', d.connector ->> 'name', d.connector ->> 'location', d.circuit ->> 'source',
        d.circuit ->> 'loadEnd', d.circuit ->> 'test', d.circuit ->> 'note',
        (select string_agg(entry, E'\n') from json_array_elements_text(d.circuit -> 'carries') as entry))
from (select r.vehicle_id, r.revision, each.key as name, each.value as circuit, each.ordinality - 1 as position,
             r.connectors -> substring(each.key from '^(.*)-') as connector
      -- offset 0 keeps the whole document from being parsed again for every circuit
      from (select vehicle_id, revision, document::json -> 'connectors' as connectors,
                   document::json -> 'circuits' as circuits
            from vehicle_revisions offset 0) r, json_each(r.circuits) with ordinality as each) d
where c.vehicle_id = d.vehicle_id
  and c.revision = d.revision
  and c.connector = coalesce(substring(d.name from '^(.*)-'), '')
  and c.pin = substring(d.name from '[^-]*$');

insert into vehicle_vin_patterns (vehicle_id, revision, pattern, owner_firm)
select distinct r.vehicle_id, r.revision, pattern, r.owner_firm
from vehicle_revisions r, json_array_elements_text(r.document::json -> 'vinPatterns') as pattern;

alter table vehicle_circuits
    alter position set not null,
    alter document set not null,
    add unique (vehicle_id, revision, position);

create index vehicles_in_order on vehicles (created_at, id);

create index vehicle_revisions_by_model on vehicle_revisions (lower(model) text_pattern_ops);
create index vehicle_revisions_by_year on vehicle_revisions (year_from, year_to);
create index vehicle_revisions_by_equipment on vehicle_revisions using gin (equipment);
create index vehicle_revisions_by_word on vehicle_revisions using gin (searched);

create index vehicle_circuits_by_colour on vehicle_circuits (colour);
create index vehicle_circuits_by_connector on vehicle_circuits (connector);
create index vehicle_circuits_by_word on vehicle_circuits using gin (searched);

create index vehicle_vin_patterns_by_stem on vehicle_vin_patterns (stem);

grant select, insert on vehicle_vin_patterns to ${applicationRole};
grant execute on function search_words(text), search_query(text) to ${applicationRole};
