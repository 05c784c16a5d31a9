import { html } from "../../lib/html.js";
export default { id: "schedule", title: "Schedule", needs: "job", render: () => html`` };
