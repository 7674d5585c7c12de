/** The Java client of the Splicebook service, over the JDK's HTTP client and Jackson 3. */
module dev.splicebook.client {
    requires transitive java.net.http;
    requires transitive tools.jackson.databind;
    requires com.fasterxml.jackson.annotation;
    requires static org.jspecify;

    exports dev.splicebook.client;

    opens dev.splicebook.client to
            tools.jackson.databind;
}
