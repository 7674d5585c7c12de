package dev.splicebook.database;

import dev.splicebook.web.ProblemWriter;
import dev.splicebook.web.Problems;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.core.Ordered;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.HandlerExceptionResolver;
import org.springframework.web.servlet.ModelAndView;

/**
 * Answers 503 to a request that finds the database away, and 409 to one that another stands in the way of. A resolver and not an exception handler, because the causes
 * decide and not the type, and everything else is left to the handlers after it.
 */
@Component
@Order(Ordered.HIGHEST_PRECEDENCE)
class DatabaseAwayResolver implements HandlerExceptionResolver {

    private static final Logger log = LoggerFactory.getLogger(DatabaseAwayResolver.class);

    @Override
    public @Nullable ModelAndView resolveException(
            HttpServletRequest request, HttpServletResponse response, @Nullable Object handler, Exception failure) {
        boolean away = DatabaseAway.isCauseOf(failure);
        // an answer that is on its way cannot become another one: it has to break off
        if (response.isCommitted() || !(away || Contention.isCauseOf(failure))) {
            return null;
        }
        try {
            if (away) {
                DatabaseAway.answer(request, response, failure);
            } else {
                ProblemWriter.write(request, response, Problems.contended());
            }
        } catch (IOException e) {
            log.debug("the caller left before the answer", e);
        }
        return new ModelAndView();
    }
}
