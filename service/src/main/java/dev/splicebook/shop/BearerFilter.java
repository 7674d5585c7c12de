package dev.splicebook.shop;

import dev.splicebook.database.DatabaseAway;
import dev.splicebook.web.Caller;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;

/** Finds the caller by the key in {@code Authorization: Bearer KEY} (RFC 6750, section 2.1). */
class BearerFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";
    private static final int LONGEST_KEY = 512;

    private final Access access;

    BearerFilter(Access access) {
        this.access = access;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String key = key(request);
        if (key != null) {
            try {
                access.findCaller(key).ifPresent(BearerFilter::letIn);
            } catch (RuntimeException e) {
                if (!DatabaseAway.isCauseOf(e)) {
                    throw e;
                }
                // without the database nobody can tell whether the key is good
                DatabaseAway.answer(request, response, e);
                return;
            }
        }
        chain.doFilter(request, response);
    }

    private static void letIn(Caller caller) {
        SecurityContext context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(new CallerAuthentication(caller));
        SecurityContextHolder.setContext(context);
    }

    private static @Nullable String key(HttpServletRequest request) {
        String header = request.getHeader(HttpHeaders.AUTHORIZATION);
        if (header == null || !header.regionMatches(true, 0, SCHEME, 0, SCHEME.length())) {
            return null;
        }
        String key = header.substring(SCHEME.length()).strip();
        return key.isEmpty() || key.length() > LONGEST_KEY ? null : key;
    }
}
