package dev.splicebook.testing;

import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.context.SpringBootTest.WebEnvironment;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;

/**
 * A test of the running service over HTTP. All subclasses share one context, so one service and one database, unless
 * they bring configuration of their own: a test looks at rows of its own making only.
 */
@Tag("database")
@SpringBootTest(webEnvironment = WebEnvironment.RANDOM_PORT)
@ExtendWith(TestDatabase.Available.class)
public abstract class ServiceIntegrationTest {

    @LocalServerPort
    private int port;

    @DynamicPropertySource
    static void database(DynamicPropertyRegistry registry) {
        TestDatabase.configure(registry);
    }

    /** Calls with the first firm's key. */
    protected Calls calls() {
        return anonymousCalls().withKey(TestDatabase.key());
    }

    /** Calls without a key. */
    protected Calls anonymousCalls() {
        return Calls.to("http://127.0.0.1:" + port);
    }
}
