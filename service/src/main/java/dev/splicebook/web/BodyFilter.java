package dev.splicebook.web;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ReadListener;
import jakarta.servlet.ServletException;
import jakarta.servlet.ServletInputStream;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletRequestWrapper;
import jakarta.servlet.http.HttpServletResponse;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.core.annotation.Order;
import org.springframework.http.InvalidMediaTypeException;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;
import org.springframework.util.unit.DataSize;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Refuses bodies that no endpoint reads: of an unreadable type, or above a limit, by their declared length at once and
 * else as soon as that much has been read.
 */
@Component
@Order(BodyFilter.BEHIND_SECURITY)
class BodyFilter extends OncePerRequestFilter {

    /** So that a request without a key is told that first. */
    static final int BEHIND_SECURITY = 0;

    /** What is read from here is read line by line, and never held as a whole. */
    private static final String LINE_BY_LINE = "/v1/imports/";

    private final long mostBytes;
    private final long mostBytesLineByLine;

    BodyFilter(
            @Value("${splicebook.web.max-body:8MB}") DataSize most,
            @Value("${splicebook.web.max-import:256MB}") DataSize mostLineByLine) {
        this.mostBytes = most.toBytes();
        this.mostBytesLineByLine = mostLineByLine.toBytes();
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        long most = request.getRequestURI().startsWith(LINE_BY_LINE) ? mostBytesLineByLine : mostBytes;
        if (request.getContentLengthLong() > most) {
            throw Problems.bodyTooLarge(most);
        }
        refuseUnreadableType(request.getContentType());
        chain.doFilter(new Limited(request, most), response);
    }

    private static void refuseUnreadableType(@Nullable String type) {
        if (type == null) {
            return;
        }
        boolean readable;
        try {
            readable = MediaType.parseMediaType(type).isConcrete();
        } catch (InvalidMediaTypeException unreadable) {
            readable = false;
        }
        if (!readable) {
            throw Problems.noMediaType(Words.shortened(type));
        }
    }

    private static final class Limited extends HttpServletRequestWrapper {

        private final long mostBytes;

        Limited(HttpServletRequest request, long mostBytes) {
            super(request);
            this.mostBytes = mostBytes;
        }

        @Override
        public ServletInputStream getInputStream() throws IOException {
            return new Counted(super.getInputStream(), mostBytes);
        }

        @Override
        public BufferedReader getReader() throws IOException {
            return new BufferedReader(new InputStreamReader(getInputStream(), StandardCharsets.UTF_8));
        }
    }

    private static final class Counted extends ServletInputStream {

        private final ServletInputStream body;
        private final long mostBytes;
        private long taken;

        Counted(ServletInputStream body, long mostBytes) {
            this.body = body;
            this.mostBytes = mostBytes;
        }

        @Override
        public int read() throws IOException {
            int octet = body.read();
            if (octet >= 0) {
                count(1);
            }
            return octet;
        }

        @Override
        public int read(byte[] buffer, int offset, int length) throws IOException {
            int read = body.read(buffer, offset, length);
            count(Math.max(read, 0));
            return read;
        }

        private void count(int read) {
            taken += read;
            if (taken > mostBytes) {
                throw Problems.bodyTooLarge(mostBytes);
            }
        }

        @Override
        public boolean isFinished() {
            return body.isFinished();
        }

        @Override
        public boolean isReady() {
            return body.isReady();
        }

        @Override
        public void setReadListener(ReadListener listener) {
            body.setReadListener(listener);
        }
    }
}
