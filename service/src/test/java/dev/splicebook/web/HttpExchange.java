package dev.splicebook.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** One exchange byte by byte over a socket: a client library would not send what is tested here. */
record HttpExchange(int status, Map<String, String> headers, String body) {

    private static final int PATIENCE_MILLIS = 10_000;

    static HttpExchange send(int port, String head, byte[] body) throws IOException {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            socket.setSoTimeout(PATIENCE_MILLIS);
            OutputStream out = socket.getOutputStream();
            try {
                out.write(head.getBytes(StandardCharsets.ISO_8859_1));
                out.write(body);
                out.flush();
            } catch (SocketException closed) {
                // a server may stop reading once it has answered; the answer must be there all the same
                assertThat(closed).isNotNull();
            }
            return read(socket.getInputStream());
        }
    }

    static HttpExchange send(int port, String head) throws IOException {
        return send(port, head, new byte[0]);
    }

    private static HttpExchange read(InputStream in) throws IOException {
        String[] head = readHead(in).split("\r\n", -1);
        assertThat(head[0]).matches("HTTP/1\\.1 \\d{3}.*");
        Map<String, String> headers = new TreeMap<>();
        for (int i = 1; i < head.length; i++) {
            String[] header = head[i].split(": ?", 2);
            headers.put(header[0].toLowerCase(Locale.ROOT), header[1]);
        }
        byte[] body;
        if (headers.containsKey("content-length")) {
            body = in.readNBytes(Integer.parseInt(headers.get("content-length")));
        } else if ("chunked".equals(headers.get("transfer-encoding"))) {
            body = readChunks(in);
        } else {
            body = in.readAllBytes();
        }
        return new HttpExchange(
                Integer.parseInt(head[0].substring(9, 12)), headers, new String(body, StandardCharsets.UTF_8));
    }

    private static String readHead(InputStream in) throws IOException {
        StringBuilder head = new StringBuilder();
        while (!head.toString().endsWith("\r\n\r\n")) {
            int octet = in.read();
            assertThat(octet).as("the server closed after: %s", head).isNotNegative();
            head.append((char) octet);
        }
        return head.substring(0, head.length() - 4);
    }

    private static byte[] readChunks(InputStream in) throws IOException {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        while (true) {
            StringBuilder size = new StringBuilder();
            for (int octet = in.read(); octet != '\n'; octet = in.read()) {
                size.append((char) octet);
            }
            int length = Integer.parseInt(size.toString().strip(), 16);
            body.write(in.readNBytes(length));
            in.readNBytes(2);
            if (length == 0) {
                return body.toByteArray();
            }
        }
    }

    JsonNode json() {
        return JsonMapper.shared().readTree(body);
    }

    /** Checks what every problem has, and that nothing of the inside is told. */
    HttpExchange assertProblem(int status, String code) {
        assertThat(this.status).as(body).isEqualTo(status);
        assertThat(headers.get("content-type")).as(body).startsWith("application/problem+json");
        JsonNode problem = json();
        assertThat(problem.path("type").stringValue()).isEqualTo("/problems/" + code);
        assertThat(problem.path("status").intValue()).isEqualTo(status);
        assertThat(problem.path("title").stringValue()).isNotBlank();
        assertThat(problem.path("detail").stringValue()).isNotBlank();
        assertThat(problem.path("errors").isArray()).isTrue();
        assertThat(problem.path("requestId").stringValue()).isEqualTo(headers.get("x-request-id"));
        assertThat(body).doesNotContain("<html", "Exception", "org.apache", "\tat ");
        return this;
    }
}
