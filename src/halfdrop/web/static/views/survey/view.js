import { html } from "../../lib/html.js";
export default { id: "survey", title: "Survey", needs: "job", render: () => html`` };
