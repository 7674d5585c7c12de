package dev.splicebook.web;

import dev.splicebook.guard.InvalidValueException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.EOFException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.apache.coyote.BadRequestException;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.TypeMismatchException;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.HttpMediaTypeNotAcceptableException;
import org.springframework.web.HttpMediaTypeNotSupportedException;
import org.springframework.web.HttpRequestMethodNotSupportedException;
import org.springframework.web.bind.MissingRequestHeaderException;
import org.springframework.web.bind.MissingRequestValueException;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.async.AsyncRequestNotUsableException;
import org.springframework.web.method.annotation.HandlerMethodValidationException;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;

/** Turns whatever a controller or Spring MVC throws into a problem document. */
@RestControllerAdvice
@Order(ProblemAdvice.BEFORE_THE_FRAMEWORK)
class ProblemAdvice {

    /** The framework has an advice of its own for its exceptions, of order 0, whose documents lack half of ours. */
    static final int BEFORE_THE_FRAMEWORK = -1;

    private static final Logger LOG = LoggerFactory.getLogger(ProblemAdvice.class);

    @ExceptionHandler
    void answer(Exception exception, HttpServletRequest request, HttpServletResponse response) throws Exception {
        if (exception instanceof AsyncRequestNotUsableException) {
            // the caller has gone: there is nobody to answer
            return;
        }
        if (response.isCommitted()) {
            if (exception instanceof ProblemException problem && problem.type() == ProblemType.BAD_REQUEST) {
                // a body that broke off took the connection along
                return;
            }
            // the container then breaks the connection, so that half an answer is not taken for a whole one
            throw exception;
        }
        ProblemWriter.write(request, response, problemOf(exception));
    }

    /** The problem of any exception; an unexpected one is logged here and nothing of it is told. */
    static ProblemException problemOf(Throwable exception) {
        ProblemException known = known(exception);
        if (known != null) {
            return known;
        }
        LOG.error("a request failed unexpectedly", exception);
        return new ProblemException(ProblemType.INTERNAL, ProblemType.INTERNAL.generalDetail());
    }

    private static @Nullable ProblemException known(Throwable exception) {
        for (Throwable cause = exception; cause != null; cause = cause.getCause()) {
            if (cause instanceof ProblemException problem) {
                return problem;
            }
        }
        if (exception instanceof InvalidParameterException) {
            return Problems.badParameter("query", "bad-encoding", "the query is not UTF-8, percent-encoded");
        }
        if (exception instanceof BadRequestException || exception instanceof EOFException) {
            return new ProblemException(
                    ProblemType.BAD_REQUEST, "the body ends or is split other than its headers say");
        }
        if (exception instanceof HttpMessageNotReadableException unreadable) {
            if (unreadable.getCause() != null) {
                return Problems.badBody(List.of(Fault.at("", "malformed-json", "the body cannot be read")));
            }
            return Problems.badBody(List.of(Fault.at("", "empty-body", "the body is empty")));
        }
        if (exception instanceof InvalidValueException invalid) {
            return Problems.badBody(invalid.invalids().stream()
                    .map(each -> Fault.at(each.pointer(), each.code(), each.detail()))
                    .toList());
        }
        if (exception instanceof TypeMismatchException mismatch) {
            return mismatched(mismatch);
        }
        if (exception instanceof MissingRequestValueException missing) {
            return missing(missing);
        }
        if (exception instanceof HandlerMethodValidationException validation) {
            return validated(validation);
        }
        if (exception instanceof HttpMediaTypeNotSupportedException unsupported) {
            return unsupported(unsupported);
        }
        if (exception instanceof HttpMediaTypeNotAcceptableException unacceptable) {
            return new ProblemException(
                    ProblemType.NOT_ACCEPTABLE,
                    "this endpoint answers in " + read(unacceptable.getSupportedMediaTypes()));
        }
        if (exception instanceof HttpRequestMethodNotSupportedException unsupported) {
            return new ProblemException(
                    ProblemType.METHOD_NOT_ALLOWED,
                    Words.shortened(unsupported.getMethod()) + " is not offered here",
                    List.of(),
                    headers(unsupported.getHeaders()));
        }
        if (exception instanceof ErrorResponse other && other.getStatusCode().is4xxClientError()) {
            ProblemType type = ProblemType.ofStatus(other.getStatusCode().value());
            return new ProblemException(type, type.generalDetail(), List.of(), headers(other.getHeaders()));
        }
        return null;
    }

    private static ProblemException mismatched(TypeMismatchException mismatch) {
        String name = mismatch instanceof MethodArgumentTypeMismatchException argument
                ? argument.getName()
                : String.valueOf(mismatch.getPropertyName());
        for (Throwable cause = mismatch; cause != null; cause = cause.getCause()) {
            if (cause instanceof InvalidValueException invalid) {
                List<Fault> faults = invalid.invalids().stream()
                        .map(each -> Fault.ofParameter(name, each.code(), named(name, each.detail())))
                        .toList();
                return Problems.badParameters(faults);
            }
        }
        Class<?> wanted = mismatch.getRequiredType();
        return Problems.badParameter(
                name,
                "wrong-type",
                name + " is \"" + Words.shortened(String.valueOf(mismatch.getValue())) + "\", which is not "
                        + (wanted == null ? "what belongs there" : wantedWords(wanted)));
    }

    private static String named(String parameter, String detail) {
        return detail.startsWith(ParameterConverter.PLACE)
                ? parameter + detail.substring(ParameterConverter.PLACE.length())
                : detail;
    }

    private static String wantedWords(Class<?> wanted) {
        if (wanted == int.class || wanted == Integer.class) {
            return "a whole number from " + Integer.MIN_VALUE + " to " + Integer.MAX_VALUE;
        }
        if (wanted == long.class || wanted == Long.class) {
            return "a whole number from " + Long.MIN_VALUE + " to " + Long.MAX_VALUE;
        }
        if (wanted == double.class || wanted == Double.class) {
            return "a number";
        }
        if (wanted == boolean.class || wanted == Boolean.class) {
            return "true or false";
        }
        if (wanted == UUID.class) {
            return "an id like 123e4567-e89b-42d3-a456-426614174000";
        }
        if (wanted.isEnum()) {
            return "one of "
                    + Arrays.stream(wanted.getEnumConstants())
                            .map(constant -> Shape.nameOf((Enum<?>) constant))
                            .collect(Collectors.joining(", "));
        }
        return "of the form that belongs there";
    }

    private static ProblemException missing(MissingRequestValueException missing) {
        String name = "a parameter";
        if (missing instanceof MissingServletRequestParameterException parameter) {
            name = parameter.getParameterName();
        } else if (missing instanceof MissingRequestHeaderException header) {
            name = header.getHeaderName();
        }
        return Problems.badParameter(name, "missing", name + " is missing");
    }

    private static ProblemException validated(HandlerMethodValidationException validation) {
        List<Fault> faults = validation.getParameterValidationResults().stream()
                .flatMap(result -> result.getResolvableErrors().stream().map(error -> {
                    String name = String.valueOf(result.getMethodParameter().getParameterName());
                    return Fault.ofParameter(name, "out-of-range", name + " " + error.getDefaultMessage());
                }))
                .toList();
        return Problems.badParameters(faults);
    }

    private static ProblemException unsupported(HttpMediaTypeNotSupportedException unsupported) {
        MediaType sent = unsupported.getContentType();
        return Problems.unsupportedMediaType(
                sent == null ? "a body without a Content-Type" : Words.shortened(sent.toString()),
                read(unsupported.getSupportedMediaTypes()));
    }

    /** The converters that come with the framework would read more than any endpoint takes. */
    private static String read(List<MediaType> supported) {
        return supported.stream().anyMatch(MediaType.APPLICATION_JSON::equals)
                ? MediaType.APPLICATION_JSON_VALUE
                : types(supported);
    }

    private static String types(List<MediaType> types) {
        List<MediaType> named =
                types.stream().filter(MediaType::isConcrete).distinct().toList();
        return named.isEmpty()
                ? MediaType.APPLICATION_JSON_VALUE
                : named.stream().map(MediaType::toString).collect(Collectors.joining(", "));
    }

    private static Map<String, String> headers(HttpHeaders headers) {
        Map<String, String> flat = new TreeMap<>();
        headers.forEach((name, values) -> flat.put(name, String.join(", ", values)));
        return flat;
    }
}
