package dev.splicebook;

import dev.splicebook.shop.DemoKey;
import java.io.PrintStream;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.boot.availability.AvailabilityChangeEvent;
import org.springframework.boot.availability.ReadinessState;
import org.springframework.boot.web.server.WebServer;
import org.springframework.boot.web.server.autoconfigure.ServerProperties;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/** Says on the console, once the service takes requests, where it listens and what to paste next. */
@Component
class Greeting {

    private static final Path FIRST_CHECK = Path.of("api-examples", "rear-entertainment", "check-1-first-draft.json");

    private final WebServerApplicationContext context;
    private final @Nullable InetAddress address;
    private final boolean demo;
    private final AtomicBoolean given = new AtomicBoolean();

    Greeting(WebServerApplicationContext context, ServerProperties server, ObjectProvider<DemoKey> demoKey) {
        this.context = context;
        this.address = server.getAddress();
        this.demo = demoKey.getIfAvailable() != null;
    }

    @EventListener
    void greet(AvailabilityChangeEvent<ReadinessState> event) {
        WebServer server = context.getWebServer();
        if (server != null
                && event.getState() == ReadinessState.ACCEPTING_TRAFFIC
                && given.compareAndSet(false, true)) {
            print(System.out, server.getPort());
        }
    }

    private void print(PrintStream console, int port) {
        String host = address == null || address.isAnyLocalAddress() ? "127.0.0.1" : address.getHostAddress();
        String url = "http://" + (host.contains(":") ? "[" + host + "]" : host) + ":" + port;
        console.println("Splicebook listens at " + url);
        if (demo) {
            console.println("The demo key is " + DemoKey.VALUE);
            console.println("Paste this into another terminal:");
            console.println(findUpwards(Path.of("").toAbsolutePath(), FIRST_CHECK)
                    .map(file -> checkCall(url, file))
                    .orElseGet(() -> call(url + "/v1/functions")));
        }
        console.flush();
    }

    static String checkCall(String url, Path file) {
        return call(url + "/v1/checks") + " -H \"Content-Type: application/json\" -d @\"" + escaped(file.toString())
                + "\"";
    }

    private static String call(String url) {
        return "curl -s " + url + " -H \"Authorization: Bearer " + DemoKey.VALUE + "\"";
    }

    /** The file below the folder or the nearest of its parents that has it. */
    static Optional<Path> findUpwards(Path folder, Path file) {
        for (Path at = folder; at != null; at = at.getParent()) {
            if (Files.isRegularFile(at.resolve(file))) {
                return Optional.of(at.resolve(file));
            }
        }
        return Optional.empty();
    }

    /** As a shell reads it between double quotes. */
    private static String escaped(String text) {
        return text.replaceAll("([\\\\\"$`])", "\\\\$1");
    }
}
