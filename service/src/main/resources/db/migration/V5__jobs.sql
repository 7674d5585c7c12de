-- What is written here stays: a revision, a waiver or a rule is replaced or withdrawn by a later row of its own.

create table house_rules (
    owner_firm uuid        not null references firms,
    code       text        not null check (code ~ '^house(-[a-z0-9]+)+$'),
    revision   integer     not null check (revision >= 1),
    -- null where the rule is withdrawn
    document   text,
    created_at timestamptz not null default now(),
    created_by uuid references api_keys,
    primary key (owner_firm, code, revision)
);

create table thresholds (
    owner_firm uuid        not null references firms,
    -- 1 is what the rules come with, and has no row
    revision   integer     not null check (revision >= 2),
    document   text        not null,
    created_at timestamptz not null default now(),
    created_by uuid references api_keys,
    primary key (owner_firm, revision)
);

create table hookups (
    id              uuid primary key,
    owner_firm      uuid        not null references firms,
    latest_revision integer     not null check (latest_revision >= 1),
    created_at      timestamptz not null default now()
);

create index hookups_by_owner on hookups (owner_firm, created_at, id);

create table hookup_revisions (
    hookup_id     uuid        not null references hookups,
    revision      integer     not null check (revision >= 1),
    owner_firm    uuid        not null references firms,
    document      text        not null,
    name          text,
    -- the vehicle of the book that it names, which may be none
    vehicle       uuid,
    -- as the check made it when the revision was added, before any waiver
    report        text        not null,
    -- whether a rule of weight was not checked
    leaves_doubt  boolean     not null,
    searched_text text        not null default '',
    searched      tsvector generated always as (array_to_tsvector(search_words(searched_text))) stored,
    created_at    timestamptz not null default now(),
    created_by    uuid references api_keys,
    primary key (hookup_id, revision)
);

create index hookup_revisions_by_vehicle on hookup_revisions (owner_firm, vehicle);
create index hookup_revisions_by_words on hookup_revisions using gin (searched);

-- the findings of a report, as far as its verdict goes by them
create table hookup_findings (
    hookup_id    uuid    not null,
    revision     integer not null,
    fingerprint  text    not null check (fingerprint ~ '^[0-9a-f]{16}$'),
    severity     text    not null check (severity in ('danger', 'error', 'warning', 'note')),
    owner_firm   uuid    not null references firms,
    -- the last day of a waiver in the document itself; infinity for one without, null where there is none
    waived_until date,
    primary key (hookup_id, revision, fingerprint, severity),
    foreign key (hookup_id, revision) references hookup_revisions
);

create table hookup_waivers (
    hookup_id   uuid        not null references hookups,
    fingerprint text        not null check (fingerprint ~ '^[0-9a-f]{16}$'),
    version     integer     not null check (version >= 1),
    owner_firm  uuid        not null references firms,
    -- what was found when it was waived
    rule        text        not null,
    message     text        not null,
    -- null where the waiver is withdrawn
    author      text,
    reason      text        not null default '',
    expires_on  date,
    created_at  timestamptz not null default now(),
    created_by  uuid references api_keys,
    primary key (hookup_id, fingerprint, version)
);

grant select, insert on house_rules, thresholds, hookups, hookup_revisions, hookup_findings, hookup_waivers to ${applicationRole};
grant update (latest_revision) on hookups to ${applicationRole};
