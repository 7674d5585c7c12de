package dev.splicebook.web;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.slf4j.MDC;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.filter.OncePerRequestFilter;

/** Gives every request an id for the answer and the log, and answers problems that further filters end with. */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class RequestIdFilter extends OncePerRequestFilter {

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        String id = RequestIds.of(request);
        response.setHeader(RequestIds.HEADER, id);
        MDC.put("requestId", id);
        try {
            chain.doFilter(request, response);
        } catch (ProblemException problem) {
            if (response.isCommitted()) {
                throw problem;
            }
            ProblemWriter.write(request, response, problem);
        } finally {
            MDC.remove("requestId");
        }
    }
}
