create table idempotency_keys (
    owner_firm  uuid        not null references firms,
    key         text        not null check (key ~ '^[!-~]{1,100}$'),
    fingerprint text        not null,
    outcome     text,
    created_at  timestamptz not null default now(),
    primary key (owner_firm, key)
);

create index idempotency_keys_by_age on idempotency_keys (owner_firm, created_at);

-- one row an import, whatever becomes of it; attempt tells a try from the one that took over from it
create table imports (
    owner_firm uuid        not null references firms,
    id         uuid        not null,
    attempt    integer     not null check (attempt >= 1),
    state      text        not null check (state in ('running', 'done', 'refused', 'broken-off')),
    dry_run    boolean     not null,
    sha256     text check (sha256 ~ '^[0-9a-f]{64}$'),
    lines      integer     not null default 0,
    vehicles   integer     not null default 0,
    devices    integer     not null default 0,
    circuits   integer     not null default 0,
    unchanged  integer     not null default 0,
    bytes      bigint      not null default 0,
    faults     integer     not null default 0,
    errors     text        not null default '[]',
    started_at timestamptz not null,
    seen_at    timestamptz not null,
    ended_at   timestamptz,
    created_by uuid references api_keys,
    primary key (owner_firm, id),
    check (state <> 'done' or dry_run or sha256 is not null)
);

create index imports_latest on imports (owner_firm, started_at desc, id);

grant select, insert, update, delete on idempotency_keys to ${applicationRole};
grant select, insert, update on imports to ${applicationRole};
