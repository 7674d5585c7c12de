-- ${applicationRole} runs the service and owns nothing: it gets exactly the grants below, and what is granted no
-- update or delete cannot change once it is written.

create table firms (
    id         uuid primary key,
    name       text        not null check (name <> ''),
    created_at timestamptz not null default now()
);

create table shops (
    id         uuid primary key,
    owner_firm uuid        not null references firms,
    name       text        not null check (name <> ''),
    created_at timestamptz not null default now(),
    unique (owner_firm, id)
);

create table api_keys (
    id         uuid primary key,
    owner_firm uuid        not null references firms,
    shop       uuid        not null,
    name       text        not null check (name <> ''),
    sha256     bytea       not null unique check (length(sha256) = 32),
    created_at timestamptz not null default now(),
    revoked_at timestamptz,
    foreign key (owner_firm, shop) references shops (owner_firm, id)
);

create table vehicles (
    id              uuid primary key,
    owner_firm      uuid        not null references firms,
    shared          boolean     not null default false,
    latest_revision integer     not null check (latest_revision >= 1),
    created_at      timestamptz not null default now()
);

create index vehicles_by_owner on vehicles (owner_firm, created_at, id);
create index vehicles_shared on vehicles (created_at, id) where shared;

create table vehicle_revisions (
    vehicle_id uuid        not null references vehicles,
    revision   integer     not null check (revision >= 1),
    owner_firm uuid        not null references firms,
    document   text        not null,
    maker      text,
    model      text,
    year_from  integer,
    year_to    integer,
    created_at timestamptz not null default now(),
    created_by uuid references api_keys,
    primary key (vehicle_id, revision)
);

create index vehicle_revisions_by_name on vehicle_revisions (lower(maker) text_pattern_ops, lower(model) text_pattern_ops);

create table vehicle_circuits (
    vehicle_id     uuid    not null,
    revision       integer not null,
    connector      text    not null,
    pin            text    not null,
    owner_firm     uuid    not null references firms,
    function       text,
    colour         text,
    kind_plugged   text,
    kind_unplugged text,
    primary key (vehicle_id, revision, connector, pin),
    foreign key (vehicle_id, revision) references vehicle_revisions
);

create index vehicle_circuits_by_function on vehicle_circuits (function text_pattern_ops);

create table devices (
    id              uuid primary key,
    owner_firm      uuid        not null references firms,
    shared          boolean     not null default false,
    code            text        not null check (code ~ '^[A-Za-z0-9][A-Za-z0-9_+-]*$'),
    latest_revision integer     not null check (latest_revision >= 1),
    created_at      timestamptz not null default now(),
    unique (owner_firm, code)
);

create index devices_by_code on devices (code text_pattern_ops);
create index devices_by_owner on devices (owner_firm, created_at, id);
create index devices_shared on devices (created_at, id) where shared;

create table device_revisions (
    device_id  uuid        not null references devices,
    revision   integer     not null check (revision >= 1),
    owner_firm uuid        not null references firms,
    document   text        not null,
    maker      text,
    name       text,
    kind       text,
    created_at timestamptz not null default now(),
    created_by uuid references api_keys,
    primary key (device_id, revision)
);

create index device_revisions_by_kind on device_revisions (kind);
create index device_revisions_by_name on device_revisions (lower(maker) text_pattern_ops, lower(name) text_pattern_ops);

create table device_terminals (
    device_id  uuid    not null,
    revision   integer not null,
    terminal   text    not null,
    owner_firm uuid    not null references firms,
    function   text,
    colour     text,
    kind       text,
    primary key (device_id, revision, terminal),
    foreign key (device_id, revision) references device_revisions
);

create index device_terminals_by_function on device_terminals (function text_pattern_ops);

grant usage on schema ${flyway:defaultSchema} to ${applicationRole};
grant select, insert on firms, shops to ${applicationRole};
grant select, insert on api_keys to ${applicationRole};
grant update (revoked_at) on api_keys to ${applicationRole};
grant select, insert on vehicles, devices to ${applicationRole};
grant update (shared, latest_revision) on vehicles, devices to ${applicationRole};
grant select, insert on vehicle_revisions, vehicle_circuits, device_revisions, device_terminals to ${applicationRole};
