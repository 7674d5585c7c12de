package dev.splicebook.client;

import java.net.URI;
import java.net.http.HttpClient;
import java.time.Duration;
import java.time.InstantSource;
import java.util.Locale;
import java.util.concurrent.ThreadLocalRandom;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/**
 * A client of one Splicebook service with one key. It is safe for use by many threads, and meant to be kept.
 *
 * <pre>{@code
 * Splicebook client = Splicebook.builder().baseUrl("http://127.0.0.1:8080").key(key).build();
 * Report report = client.checks().check(hookup);
 * }</pre>
 *
 * <p>Calls that change nothing, checks among them, are sent again when the connection fails or the service answers 503
 * or 429: twice unless told otherwise, after growing waits with some chance in them, for as long as {@code Retry-After} says and
 * at most about 10 s; a service that asks for more is not asked again. Calls that create something are sent again only
 * with an {@link IdempotencyKey}, by which the service tells that it has done so already, and other changes are sent once.
 */
public final class Splicebook {

    private final String baseUrl;
    private final Transport transport;
    private final Functions functions;
    private final Rules rules;
    private final Vehicles vehicles;
    private final Devices devices;
    private final Circuits circuits;
    private final Spreadsheets spreadsheets;
    private final Imports imports;
    private final Exports exports;
    private final Checks checks;
    private final Hookups hookups;
    private final HouseRules houseRules;
    private final Thresholds thresholds;
    private final Pairings pairings;
    private final Calculations calculations;
    private final Problems problems;

    private Splicebook(String baseUrl, Transport transport) {
        this.baseUrl = baseUrl;
        this.transport = transport;
        this.functions = new Functions(transport);
        this.rules = new Rules(transport);
        this.vehicles = new Vehicles(transport);
        this.devices = new Devices(transport);
        this.circuits = new Circuits(transport);
        this.spreadsheets = new Spreadsheets(transport);
        this.imports = new Imports(transport);
        this.exports = new Exports(transport);
        this.checks = new Checks(transport);
        this.hookups = new Hookups(transport);
        this.houseRules = new HouseRules(transport);
        this.thresholds = new Thresholds(transport);
        this.pairings = new Pairings(transport);
        this.calculations = new Calculations(transport);
        this.problems = new Problems(transport);
    }

    /** Begins a client. */
    public static Builder builder() {
        return new Builder();
    }

    /**
     * This client with other options, like a longer timeout, or an idempotency key for a call:
     *
     * <pre>{@code
     * client.with(CallOptions.defaults().idempotencyKey(key)).vehicles().create(map);
     * }</pre>
     *
     * <p>What the options leave open is as it is here. This client stays as it is, and both share their connections.
     */
    public Splicebook with(CallOptions options) {
        return new Splicebook(baseUrl, transport.with(options));
    }

    /** The vocabulary: what a wire can be for. */
    public Functions functions() {
        return functions;
    }

    /** What is checked, why it matters, and how it is mended. */
    public Rules rules() {
        return rules;
    }

    /** The book of vehicles. */
    public Vehicles vehicles() {
        return vehicles;
    }

    /** The catalogue of devices. */
    public Devices devices() {
        return devices;
    }

    /** The circuits of all vehicles. */
    public Circuits circuits() {
        return circuits;
    }

    /** Function maps as spreadsheets. */
    public Spreadsheets spreadsheets() {
        return spreadsheets;
    }

    /** Many vehicles and devices in. */
    public Imports imports() {
        return imports;
    }

    /** Many vehicles and devices out. */
    public Exports exports() {
        return exports;
    }

    /** Is this hookup right? */
    public Checks checks() {
        return checks;
    }

    /** Stored hookups, with their reports and waivers. */
    public Hookups hookups() {
        return hookups;
    }

    /** The firm's own rules. */
    public HouseRules houseRules() {
        return houseRules;
    }

    /** The figures that rules compare with. */
    public Thresholds thresholds() {
        return thresholds;
    }

    /** Proposes hookups. */
    public Pairings pairings() {
        return pairings;
    }

    /** The arithmetic of the trade. */
    public Calculations calculations() {
        return calculations;
    }

    /** What the problems mean that calls end with. */
    public Problems problems() {
        return problems;
    }

    /** Where the service is; the key is not told. */
    @Override
    public String toString() {
        return "Splicebook[" + baseUrl + "]";
    }

    /** Puts a client together; {@link #baseUrl} and {@link #key} are needed. */
    public static final class Builder {

        private static final Duration CONNECT_TIMEOUT = Duration.ofSeconds(5);
        private static final Duration TIMEOUT = Duration.ofSeconds(30);
        private static final int RETRIES = 2;

        private @Nullable String baseUrl;
        private @Nullable String key;
        private @Nullable HttpClient http;
        private Duration timeout = TIMEOUT;
        private int retries = RETRIES;
        private @Nullable Supplier<IdempotencyKey> keys;
        private InstantSource clock = InstantSource.system();
        private Retrying.Sleeper sleeper = wait -> Thread.sleep(wait.toMillis());

        private Builder() {}

        /**
         * Where the service is, like {@code https://book.example} or {@code http://127.0.0.1:8080}, with the path that it
         * is served below if there is one.
         *
         * @throws IllegalArgumentException if it is no http or https address, or has a user, query or fragment
         */
        public Builder baseUrl(String baseUrl) {
            URI uri;
            try {
                uri = URI.create(baseUrl);
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException("the base URL is not a URL", e);
            }
            String scheme = uri.getScheme() == null ? "" : uri.getScheme().toLowerCase(Locale.ROOT);
            if (!(scheme.equals("http") || scheme.equals("https")) || uri.getHost() == null) {
                throw new IllegalArgumentException("the base URL does not begin with http://HOST or https://HOST");
            }
            if (uri.getRawUserInfo() != null || uri.getRawQuery() != null || uri.getRawFragment() != null) {
                throw new IllegalArgumentException("the base URL has a user, a query or a fragment");
            }
            this.baseUrl = baseUrl.replaceAll("/+$", "");
            return this;
        }

        /**
         * The shop's key.
         *
         * @throws IllegalArgumentException if it is empty, or holds what a header cannot carry
         */
        public Builder key(String key) {
            // the HTTP client would refuse it too, and print it
            if (!key.matches("[\\x21-\\x7e]+")) {
                throw new IllegalArgumentException("the key is empty, or holds a space or a character outside ASCII");
            }
            this.key = key;
            return this;
        }

        /**
         * How long one attempt may take, from the connection to the end of the answer; 30 s unless told otherwise. An
         * export, and what is written to a file, may take this long for each piece that comes. An import may take ten
         * minutes if this is less, unless {@link CallOptions#timeout(Duration)} says otherwise.
         *
         * @throws IllegalArgumentException if it is not above 0
         */
        public Builder timeout(Duration timeout) {
            this.timeout = Require.above0("timeout", timeout);
            return this;
        }

        /**
         * How many times at most a call that may be is sent again; 2 unless told otherwise, 0 for never.
         *
         * @throws IllegalArgumentException if it is below 0
         */
        public Builder retries(int retries) {
            this.retries = Require.notNegative("retries", retries);
            return this;
        }

        /**
         * Where each call that creates something gets an idempotency key of its own, like {@code IdempotencyKey::random},
         * so that it is sent again like a read. Without this, calls have a key only where they are given one with
         * {@link CallOptions#idempotencyKey(IdempotencyKey)}.
         */
        public Builder idempotencyKeys(Supplier<IdempotencyKey> keys) {
            this.keys = keys;
            return this;
        }

        /** The HTTP client to use, for a proxy or certificates of your own; one is made unless it is given. */
        public Builder httpClient(HttpClient http) {
            this.http = http;
            return this;
        }

        Builder clock(InstantSource clock) {
            this.clock = clock;
            return this;
        }

        Builder sleeper(Retrying.Sleeper sleeper) {
            this.sleeper = sleeper;
            return this;
        }

        /**
         * The client.
         *
         * @throws IllegalStateException if base URL or key is missing
         */
        public Splicebook build() {
            if (baseUrl == null || key == null) {
                throw new IllegalStateException((baseUrl == null ? "the base URL" : "the key") + " is missing");
            }
            HttpClient client = http;
            if (client == null) {
                client = HttpClient.newBuilder()
                        // over plain HTTP the client would ask to switch to HTTP/2 on the first call, to no avail
                        .version(baseUrl.startsWith("https") ? HttpClient.Version.HTTP_2 : HttpClient.Version.HTTP_1_1)
                        .connectTimeout(CONNECT_TIMEOUT.compareTo(timeout) < 0 ? CONNECT_TIMEOUT : timeout)
                        .build();
            }
            Retrying retrying = new Retrying(
                    retries, clock, sleeper, () -> ThreadLocalRandom.current().nextDouble());
            return new Splicebook(baseUrl, new Transport(client, baseUrl, key, timeout, retrying, keys));
        }
    }
}
