package dev.splicebook.web;

import io.swagger.v3.oas.annotations.Hidden;
import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.RequestMapping;

/** Answers what ended outside the controllers, where the container dispatches errors to. */
@Hidden
@Controller
class ProblemErrorController implements ErrorController {

    @RequestMapping("${spring.web.error.path:${error.path:/error}}")
    void answer(HttpServletRequest request, HttpServletResponse response) throws IOException {
        ProblemWriter.write(request, response, problem(request));
    }

    private static ProblemException problem(HttpServletRequest request) {
        if (request.getAttribute(RequestDispatcher.ERROR_EXCEPTION) instanceof Throwable failure) {
            return ProblemAdvice.problemOf(failure);
        }
        int status = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer set
                ? set
                : ProblemType.NOT_FOUND.status();
        return ofStatus(status);
    }

    /** The problem of a status that the container set without saying more. */
    static ProblemException ofStatus(int status) {
        ProblemType type = ProblemType.ofStatus(status);
        return new ProblemException(type, type.generalDetail());
    }
}
